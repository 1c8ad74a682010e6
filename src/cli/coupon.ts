/** `anfract coupon RUN [ID] | DESIGN`: a small cut of a plate, to print and measure first. */
import { dirname, join } from 'node:path';
import type { Command } from 'commander';
import { InvalidArgumentError } from 'commander';
import { RunError } from '../brief/index.ts';
import {
  COUPON_DEFAULTS,
  checkBrief,
  cutCoupon,
  designFlow_m3_per_h,
  pressureCurve,
} from '../engine/index.ts';
import type { Coupon } from '../engine/index.ts';
import { figure, writeDesignFile } from '../formats/index.ts';
import { DISK, makeFolder, writeWhole } from '../store/index.ts';
import type { Shelf } from '../store/index.ts';
import { FORMS, meshTarget } from './mesh-files.ts';
import { terminalOf, withManners } from './options.ts';
import { findTarget } from './targets.ts';
import { table, wrap } from './words.ts';

interface Options {
  readonly size?: readonly [number, number];
  readonly at?: readonly [number, number];
  readonly out?: string;
}

const SIDES = 24;
/** Flows to measure at, as shares of the coupon's design flow. */
const BENCH_SHARES = [0.25, 0.5, 0.75, 1, 1.5, 2];

export function addCoupon(program: Command): void {
  const { width_mm, height_mm, x_mm, y_mm } = COUPON_DEFAULTS;
  withManners(program.command('coupon'))
    .argument('<source>', 'a run folder or a design file')
    .argument('[id]', 'design of the run; `knee` (when left out) stands for the marked one')
    .option('--size <WxH>', `size of the cut in mm; ${width_mm}x${height_mm} when left out`, sizeOf)
    .option('--at <x,y>', `its middle on the plate in mm; ${x_mm},${y_mm} when left out`, placeOf)
    .option('--out <folder>', 'where to write; the run folder, or beside the design file')
    .description('Cut a test coupon with the real channels: design file, STL, 3MF.')
    .addHelpText(
      'after',
      '\nExample:\n  anfract coupon runs/a d007 --size 35x35 --at 10,0 --out prints',
    )
    .action(async (source: string, id: string | undefined, options: Options, command: Command) => {
      const terminal = terminalOf(command);
      const { run, name, file } = await findTarget(source, id, terminal);
      const coupon = cutCoupon(file.brief, file.design, {
        width_mm: options.size?.[0] ?? width_mm,
        height_mm: options.size?.[1] ?? height_mm,
        x_mm: options.at?.[0] ?? x_mm,
        y_mm: options.at?.[1] ?? y_mm,
      });
      const brief = checkBrief(coupon.brief, 'coupon');
      const target = {
        name: `${name.replace(/\.design$/, '')}-coupon`,
        file: { name: `${file.name}, coupon`, brief, design: coupon.design, genes: null },
      };
      const { files, report } = await meshTarget(target, FORMS, SIDES);
      if (options.out !== undefined) makeFolder(DISK, options.out);
      const put = (shelf: Shelf, title: string, content: string | Uint8Array): string => {
        if (options.out === undefined && run !== null) return run.put(shelf, title, content);
        const path = join(options.out ?? dirname(source), title);
        writeWhole(DISK, path, content);
        return path;
      };
      const paths = [
        put('designs', `${target.name}.design.json`, writeDesignFile(target.file)),
        ...files.map((mesh) => put('meshes', mesh.name, mesh.bytes)),
      ];
      terminal.result(
        terminal.json
          ? JSON.stringify({ files: paths, channels: coupon.channels, share: coupon.share, report })
          : couponPage(coupon, paths),
      );
      if (report.faults.length > 0) {
        const faults = report.faults.map((fault) => fault.message).join('; ');
        throw new RunError(
          'mesh-faults',
          target.name,
          faults,
          'Measure the design before printing.',
        );
      }
    });
}

function couponPage(coupon: Coupon, paths: readonly string[]): string {
  const design = designFlow_m3_per_h(coupon.brief);
  const flows = BENCH_SHARES.map((share) => share * design);
  const rows = pressureCurve(coupon.brief, coupon.design, flows).map((point) => [
    figure(point.flow_m3_per_h),
    figure(point.pressureDrop_Pa),
  ]);
  return [
    ...paths,
    '',
    wrap(
      `${coupon.channels} whole channels, ${figure(100 * coupon.share)} % of the plate's ports; its share of the design flow is ${figure(design)} m3/h.`,
      '',
    ),
    '',
    'Estimated at the bench, to choose a gauge and a flow meter:',
    table(['flow [m3/h]', 'pressure drop [Pa]'], rows),
    '',
    wrap(
      `Print it as the plate will be printed, measure some bores, then flow and pressure at these flows, and fit: anfract calibrate ${paths[0]} --readings bench.csv`,
      '',
    ),
  ].join('\n');
}

/** Two numbers with a mark between them; null for another text. */
function pairIn(text: string, mark: string): readonly [number, number] | null {
  const parts = text.split(mark);
  const values = parts.map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  const [first, second] = values;
  return values.length === 2 && values.every(Number.isFinite) ? [first, second] : null;
}

/** For commander. */
function sizeOf(text: string): readonly [number, number] {
  const pair = pairIn(text, 'x');
  if (pair !== null && Math.min(...pair) > 0 && Math.max(...pair) <= 600) return pair;
  throw new InvalidArgumentError('It must be two numbers above 0, up to 600, such as 30x30.');
}

/** For commander. */
function placeOf(text: string): readonly [number, number] {
  const pair = pairIn(text, ',');
  if (pair !== null) return pair;
  throw new InvalidArgumentError('It must be two numbers, such as 10,0.');
}
