/** Charts of a few curves or bars on the sheet. */
import { log10 } from '../numeric/index.ts';
import { INK, lettering, num, rule, sheet, strokeOf } from './svg-sheet.ts';
import { roundTicks, tickText } from './svg-ticks.ts';

const SIZE = { width: 640, height: 400 } as const;
const PLOT = { left: 74, top: 52, width: 400, height: 276 } as const;

/** How a series is drawn; each kind differs by more than its tone. */
type SeriesStyle = 'solid' | 'dashed' | 'dots' | 'bars';

export interface Series {
  readonly label: string;
  readonly style: SeriesStyle;
  /** x and y of each point. */
  readonly points: readonly (readonly [number, number])[];
}

interface Chart {
  readonly title: string;
  /** One sentence for readers who do not see. */
  readonly description: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly series: readonly Series[];
  /** Decades along x instead of equal steps; all x above 0. */
  readonly logX?: boolean;
  /** Figures below the axis instead of round ones, such as the middles of octave bands. */
  readonly xTicks?: readonly number[];
  /** Words in place of the figures of `xTicks`. */
  readonly xNames?: readonly string[];
  /** Names of points, drawn beside them. */
  readonly marks?: readonly { readonly x: number; readonly y: number; readonly text: string }[];
}

const TONES = [INK.line, INK.air, INK.accent, INK.soft];

interface Scales {
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
  readonly xTicks: readonly number[];
  readonly yTicks: readonly number[];
}

/** SVG of a chart; the y axis begins at 0 unless a value lies below. */
export function drawChart(chart: Chart): string {
  const scales = scalesOf(chart);
  return sheet({
    ...SIZE,
    title: chart.title,
    description: chart.description,
    body: [
      lettering(PLOT.left, 30, chart.title, { size: 14, weight: 'bold' }),
      ...frameOf(chart, scales),
      ...chart.series.flatMap((series, k) => drawSeries(series, TONES[k % TONES.length], scales)),
      ...keyOf(chart.series),
      ...marksOf(chart, scales),
    ],
  });
}

function scalesOf({ series, logX = false, xTicks }: Chart): Scales {
  const points = series.flatMap((entry) => entry.points);
  const along = (value: number): number => (logX ? log10(value) : value);
  const xs = points.map(([x]) => along(x));
  const ys = points.map(([, y]) => y);
  const hasBars = series.some((entry) => entry.style === 'bars');
  const [xLow, xHigh] = padded(Math.min(...xs), Math.max(...xs), hasBars ? 0.1 : 0.03);
  const yLow = Math.min(0, ...ys);
  const yHigh = Math.max(...ys, yLow + 1e-9) * 1.08;
  return {
    x: (value) => PLOT.left + ((along(value) - xLow) / (xHigh - xLow)) * PLOT.width,
    y: (value) => PLOT.top + PLOT.height - ((value - yLow) / (yHigh - yLow)) * PLOT.height,
    xTicks: xTicks ?? roundTicks(xLow, xHigh, 6),
    yTicks: roundTicks(yLow, yHigh, 5),
  };
}

function padded(low: number, high: number, share: number): readonly [number, number] {
  const width = high > low ? high - low : 1;
  return [low - share * width, high + share * width];
}

function frameOf(chart: Chart, { x, y, xTicks, yTicks }: Scales): string[] {
  const { left, top, width, height } = PLOT;
  const bottom = top + height;
  const faint = { tone: INK.gridBold, width: 0.6 };
  const parts = [
    `<rect x="${left}" y="${top}" width="${width}" height="${height}" fill="${INK.paper}" ` +
      `fill-opacity="0.8" ${strokeOf({ width: 0.8 })}/>`,
  ];
  for (const [k, tick] of xTicks.entries()) {
    parts.push(rule(x(tick), top, x(tick), bottom, faint));
    const text = chart.xNames?.[k] ?? tickText(tick);
    parts.push(lettering(x(tick), bottom + 15, text, { anchor: 'middle', size: 10 }));
  }
  for (const tick of yTicks) {
    parts.push(rule(left, y(tick), left + width, y(tick), faint));
    parts.push(lettering(left - 6, y(tick) + 3.5, tickText(tick), { anchor: 'end', size: 10 }));
  }
  parts.push(
    lettering(left + width / 2, bottom + 36, chart.xLabel, { anchor: 'middle', size: 12 }),
    lettering(22, top + height / 2, chart.yLabel, { anchor: 'middle', size: 12, turn_deg: -90 }),
  );
  return parts;
}

/** Width of a bar on the sheet. */
const BAR = 22;

function drawSeries({ style, points }: Series, tone: string, { x, y }: Scales): string[] {
  switch (style) {
    case 'solid':
    case 'dashed': {
      const path = points.map(([a, b]) => `${num(x(a))} ${num(y(b))}`).join('L');
      const dash = style === 'dashed' ? { dash: '6 4' } : {};
      return [`<path d="M${path}" fill="none" ${strokeOf({ tone, width: 1.6, ...dash })}/>`];
    }
    case 'dots':
      return points.map(
        ([a, b]) =>
          `<circle cx="${num(x(a))}" cy="${num(y(b))}" r="3.6" fill="${INK.paper}" ` +
          `${strokeOf({ tone, width: 1.6 })}/>`,
      );
    case 'bars':
      return points.map(([a, b]) => {
        const [top, foot] = [Math.min(y(b), y(0)), Math.max(y(b), y(0))];
        return (
          `<rect x="${num(x(a) - BAR / 2)}" y="${num(top)}" width="${BAR}" ` +
          `height="${num(foot - top)}" fill="${tone}" fill-opacity="0.3" ${strokeOf({ tone, width: 1 })}/>`
        );
      });
    default: {
      const never: never = style;
      return never;
    }
  }
}

function keyOf(series: readonly Series[]): string[] {
  const left = PLOT.left + PLOT.width + 16;
  return series.flatMap(({ label, style }, k) => {
    const y = PLOT.top + 14 + 22 * k;
    const tone = TONES[k % TONES.length];
    const sample =
      style === 'dots'
        ? `<circle cx="${left + 12}" cy="${y - 4}" r="3.6" fill="${INK.paper}" ${strokeOf({ tone, width: 1.6 })}/>`
        : style === 'bars'
          ? `<rect x="${left + 2}" y="${y - 10}" width="20" height="11" fill="${tone}" fill-opacity="0.3" ${strokeOf({ tone, width: 1 })}/>`
          : rule(left, y - 4, left + 24, y - 4, {
              tone,
              width: 1.6,
              ...(style === 'dashed' ? { dash: '6 4' } : {}),
            });
    return [sample, lettering(left + 30, y, label, { size: 11 })];
  });
}

function marksOf({ marks = [] }: Chart, { x, y }: Scales): string[] {
  return marks.flatMap((mark) => [
    `<circle cx="${num(x(mark.x))}" cy="${num(y(mark.y))}" r="4" fill="${INK.accent}"/>`,
    lettering(x(mark.x) - 8, y(mark.y) - 9, mark.text, {
      anchor: 'end',
      tone: INK.accent,
      weight: 'bold',
    }),
  ]);
}
