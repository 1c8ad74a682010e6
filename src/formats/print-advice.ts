/** How to print a design, in plain sentences. */
import type { Front, FrontDesign } from '../engine/index.ts';
import { figure } from './figure.ts';

/** Advice for one design of a front, most important first. Common practice, no source. */
export function printAdvice(front: Front, design: FrontDesign, build: 'flat' | 'edge'): string[] {
  const { process } = front.brief;
  const read = (id: string): number =>
    design.readings[front.measures.findIndex((info) => info.id === id)] ?? Number.NaN;
  const advice = [
    build === 'flat'
      ? 'Print it flat, inlet face on the bed.'
      : 'Print it standing on its lower edge; a brim keeps a thin plate from falling over.',
    supportAdvice(read('supportVolume_mm3'), read('bridge_mm'), process.bridgeLimit_mm),
    `Lines of ${process.lineWidth_mm} mm, layers of ${process.layerHeight_mm} mm; walls printed full: the thinnest is ${figure(read('thinnestWall_mm'))} mm, ${figure(read('thinnestWall_mm') / process.lineWidth_mm)} lines.`,
    `Bores are drawn ${process.holeShrinkage_mm} mm wider than they are expected to come out; the finest opening prints ${figure(read('finestFeature_mm'))} mm wide. Measure some bores of a coupon and correct process.holeShrinkage_mm.`,
  ];
  const islands = read('newIslands');
  if (islands > 0) {
    advice.push(`${figure(islands)} pieces of layers begin in the air: they need support.`);
  }
  const strings = read('stringingIndex_per_cm3');
  if (strings > 2 * TYPICAL_STRINGS) {
    advice.push(
      `Many travels cross open channels (${figure(strings)} retractions per cm3): dry the filament, tune retraction, and blow the channels out afterwards.`,
    );
  }
  advice.push(
    `Print a test coupon first (\`anfract coupon RUN ${design.id}\`), measure flow and pressure on it, and fit with \`anfract calibrate\`.`,
  );
  return advice;
}

/** Retractions per cm3 of an ordinary plate; from the experiments of this project. */
const TYPICAL_STRINGS = 100;

function supportAdvice(volume_mm3: number, bridge_mm: number, limit_mm: number): string {
  const bridges =
    bridge_mm > 0
      ? ` The longest bridge is ${figure(bridge_mm)} mm (limit ${limit_mm} mm): slow down and cool there.`
      : '';
  return volume_mm3 > 0
    ? `It needs support: ${figure(volume_mm3)} mm3 by the layer raster; see that it can be got out of the channels.${bridges}`
    : `It needs no support by the layer raster.${bridges}`;
}

/** What every number of a report takes for granted. */
export function assumptions({ brief }: Front): string[] {
  const { air, process } = brief;
  return [
    `Air of ${air.temperature_C} C at ${air.altitude_m} m, dry, incompressible; walls as rough as layers of ${process.layerHeight_mm} mm leave them.`,
    'Pressure is even on either face of the plate; swirl, hub shadow and what stands close before or behind the plate are left out.',
    air.supply.kind === 'fan'
      ? 'The fan curve is static pressure at 1.2 kg/m3, scaled to the density at hand; the plate does not change the fan.'
      : 'The flow is given; no fan was asked.',
    'Channels are as drawn but for the shrinkage of bores; warping, blobs and strings are left out.',
    'Readings are of the exact form (64 stations along each channel, layers drawn in pixels); the column of the finer sampling says how much they still move.',
  ];
}
