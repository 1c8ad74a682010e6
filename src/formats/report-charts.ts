/** The charts of a design in a report. */
import { LOSS_PARTS } from '../brief/index.ts';
import type { Portrait } from '../engine/index.ts';
import { LOSS_WORDS } from './calibration-words.ts';
import { figure } from './figure.ts';
import type { ReportPicture } from './report-html.ts';
import { drawLayer } from './svg-layer.ts';
import { drawChart } from './svg-chart.ts';
import type { Series } from './svg-chart.ts';

/** All charts of a design, in the order in which they are read. */
export function reportCharts(id: string, portrait: Portrait): ReportPicture[] {
  return [
    pressureChart(id, portrait),
    dustChart(id, portrait),
    soundChart(id, portrait),
    lightChart(id, portrait),
    layerChart(id, portrait),
    layerMap(id, portrait),
  ];
}

function pressureChart(id: string, portrait: Portrait): ReportPicture {
  const { plateCurve, fanCurve, operating, losses_Pa, designFlow_m3_per_h } = portrait;
  const series: Series[] = [{ label: 'plate', style: 'solid', points: pairs(plateCurve) }];
  if (fanCurve !== null) series.push({ label: 'fan', style: 'dashed', points: pairs(fanCurve) });
  const total = LOSS_PARTS.reduce((sum, part) => sum + losses_Pa[part], 0);
  const parts = LOSS_PARTS.filter((part) => losses_Pa[part] > 0.005 * total).map(
    (part) => `${LOSS_WORDS[part]} ${((100 * losses_Pa[part]) / total).toFixed(0)} %`,
  );
  const met =
    operating === null
      ? ''
      : ` Fan and plate meet at ${figure(operating.flow_m3_per_h)} m3/h and ${figure(operating.pressureDrop_Pa)} Pa.`;
  return {
    svg: drawChart({
      title: `${id}: pressure over flow`,
      description: `Pressure drop of the plate over flow.${met}`,
      xLabel: 'flow [m3/h]',
      yLabel: 'pressure [Pa]',
      series,
      marks:
        operating === null
          ? []
          : [{ x: operating.flow_m3_per_h, y: operating.pressureDrop_Pa, text: 'operating point' }],
    }),
    caption: `Pressure over flow.${met} At the design flow of ${figure(designFlow_m3_per_h)} m3/h the drop is made up of ${parts.join(', ')}.`,
  };
}

function pairs(curve: Portrait['plateCurve']): (readonly [number, number])[] {
  return curve.map((point) => [point.flow_m3_per_h, point.pressureDrop_Pa]);
}

function dustChart(id: string, { dust }: Portrait): ReportPicture {
  return {
    svg: drawChart({
      title: `${id}: dust kept over grain size`,
      description: 'Share of each size class of the dust that stays in the plate.',
      xLabel: 'grain diameter [um]',
      yLabel: 'share kept [%]',
      logX: true,
      xTicks: decades(dust.map((entry) => entry.diameter_um)),
      series: [
        {
          label: 'kept',
          style: 'solid',
          points: dust.map(({ diameter_um, captured }) => [diameter_um, 100 * captured]),
        },
        {
          label: 'size classes',
          style: 'dots',
          points: dust.map(({ diameter_um, captured }) => [diameter_um, 100 * captured]),
        },
      ],
    }),
    caption:
      'Dust kept over grain size, at the design flow. A heuristic of ours that ranks designs; it does not predict a filter class.',
  };
}

/** 1, 2, 5 times powers of ten within a span. */
function decades(values: readonly number[]): number[] {
  const low = Math.min(...values);
  const high = Math.max(...values);
  return [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000].filter(
    (tick) => tick >= 0.8 * low && tick <= 1.25 * high,
  );
}

function soundChart(id: string, { sound }: Portrait): ReportPicture {
  return {
    svg: drawChart({
      title: `${id}: sound loss per octave band`,
      description: 'Transmission loss of the plate in octave bands.',
      xLabel: 'band centre [Hz]',
      yLabel: 'transmission loss [dB]',
      logX: true,
      xTicks: sound.map((band) => band.centre_Hz),
      series: [
        {
          label: 'loss',
          style: 'bars',
          points: sound.map((band) => [band.centre_Hz, Math.max(0, band.loss_dB)]),
        },
      ],
    }),
    caption:
      'Sound loss per octave band for plane waves at normal incidence, without flow and room. A vent plate hardly blocks low tones.',
  };
}

function lightChart(id: string, { light }: Portrait): ReportPicture {
  const bars: (readonly [number, number])[] = [
    [1, 100 * light.straight],
    ...light.walls.map(({ through }, k): readonly [number, number] => [k + 2, 100 * through]),
  ];
  const names = light.walls.map(
    ({ reflectance, through }) => `${figure(100 * through)} % at reflectance ${reflectance}`,
  );
  return {
    svg: drawChart({
      title: `${id}: diffuse light that gets through`,
      description: 'Share of diffuse light that leaves the plate, straight and by its walls.',
      xLabel: 'reflectance of the walls',
      xNames: ['straight', ...light.walls.map(({ reflectance }) => String(reflectance))],
      yLabel: 'share through [%]',
      xTicks: bars.map(([x]) => x),
      series: [{ label: 'light', style: 'bars', points: bars }],
    }),
    caption: `Of diffuse light on the ports, ${figure(100 * light.straight)} % passes in a straight line; with bounces off the walls ${names.join(', ')} (about black, grey, white plastic).`,
  };
}

function layerMap(id: string, { worstLayer }: Portrait): ReportPicture {
  return {
    svg: drawLayer(worstLayer, `${id}: a layer as it prints`),
    caption: `Layer ${worstLayer.layer + 1} of ${worstLayer.layers}, the one of which most hangs, seen from above.`,
  };
}

function layerChart(id: string, { layers }: Portrait): ReportPicture {
  const points = (values: ArrayLike<number>): (readonly [number, number])[] =>
    Array.from(layers.height_mm, (height, k) => [height, values[k]]);
  const hanging = layers.unsupported_mm2.some((area) => area > 0);
  return {
    svg: drawChart({
      title: `${id}: layers from the bed up`,
      description: 'Solid area of each layer and the area that nothing below carries.',
      xLabel: 'height above the bed [mm]',
      yLabel: 'area [mm2]',
      series: [
        { label: 'solid', style: 'solid', points: points(layers.area_mm2) },
        { label: 'hanging', style: 'dashed', points: points(layers.unsupported_mm2) },
      ],
    }),
    caption: hanging
      ? 'Solid area per layer, and what stands out over the layer below by more than the overhang limit; much of it may be carried by bridges.'
      : 'Solid area per layer. No layer stands out over the one below by more than the overhang limit.',
  };
}
