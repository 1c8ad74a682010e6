/** `anfract fan`: a library of invented curves, and curves from tables, as `air.supply` of a brief. */
import type { Command } from 'commander';
import { FAN_LIBRARY, InputError, fault, nearestName } from '../brief/index.ts';
import type { LibraryFan } from '../brief/index.ts';
import { checkBrief } from '../engine/index.ts';
import { readCurveCsv, writeJson } from '../formats/index.ts';
import type { CurvePoint } from '../formats/index.ts';
import { readText } from './files.ts';
import { terminalOf, within, withManners } from './options.ts';
import { table } from './words.ts';

interface Options {
  readonly csv?: string;
  readonly speed?: number;
}

export function addFan(program: Command): void {
  withManners(program.command('fan'))
    .argument('[name]', 'a fan of the library; all are listed when left out')
    .option('--csv <file>', 'a curve of your own: columns such as flow_m3_per_h,pressure_Pa')
    .option('--speed <share>', 'speed over the speed of the curve', within(0.1, 3))
    .description('Print a fan as `air.supply` of a brief: invented ones, or a curve from CSV.')
    .addHelpText(
      'after',
      '\nExamples:\n  anfract fan\n  anfract fan brisk-80 --speed 0.8\n  anfract fan --csv datasheet.csv',
    )
    .action(async (name: string | undefined, options: Options, command: Command) => {
      const terminal = terminalOf(command);
      if (options.speed !== undefined && name === undefined && options.csv === undefined) {
        const remedy = '`anfract fan` lists the names.';
        const allowed = 'stand beside a name or --csv';
        throw new InputError([fault('--speed', String(options.speed), allowed, remedy)], 'fan');
      }
      const speedShare = options.speed ?? 1;
      if (options.csv !== undefined) {
        if (name !== undefined) {
          const remedy = 'Give a name or a table, not both.';
          throw new InputError([fault('fan', name, 'be left out beside --csv', remedy)], 'fan');
        }
        const curve = readCurveCsv(await readText(options.csv), options.csv).toSorted(
          (a, b) => a.flow_m3_per_h - b.flow_m3_per_h,
        );
        refuseCurve(curve, options.csv);
        terminal.result(writeJson({ kind: 'fan', curve, speedShare }).trimEnd());
      } else if (name !== undefined) {
        const { curve, swept } = findFan(name);
        terminal.remark('INVENTED curve: take the data sheet of a real fan.');
        terminal.result(writeJson({ kind: 'fan', curve, speedShare, swept }).trimEnd());
      } else {
        terminal.result(terminal.json ? JSON.stringify(FAN_LIBRARY, null, 2) : libraryPage());
      }
    });
}

/** @throws InputError for a curve that a brief would refuse, such as readings of a plate. */
function refuseCurve(curve: readonly CurvePoint[], where: string): void {
  const plate = { outline: { kind: 'round', diameter_mm: 80 }, thickness_mm: 12 };
  const air = { supply: { kind: 'fan', curve } };
  checkBrief({ format: 'anfract-brief', version: 1, plate, air }, where);
}

function findFan(name: string): LibraryFan {
  const found = FAN_LIBRARY.find((fan) => fan.name === name);
  if (found !== undefined) return found;
  const names = FAN_LIBRARY.map((fan) => fan.name);
  const near = nearestName(name, names);
  const hint = near === null ? '' : `Did you mean ${near}? `;
  const remedy = `${hint}\`anfract fan\` lists them.`;
  throw new InputError([fault('fan', name, `be one of ${names.join(', ')}`, remedy)], 'fan');
}

function libraryPage(): string {
  const headings = ['fan', 'frame [mm]', 'free flow [m3/h]', 'shut-off [Pa]', 'for'];
  const rows = FAN_LIBRARY.map(({ name, frame_mm, curve, note }) => [
    name,
    String(frame_mm),
    String(curve[curve.length - 1].flow_m3_per_h),
    String(curve[0].pressure_Pa),
    note,
  ]);
  return `All curves are INVENTED; take the data sheet of a real fan.\n\n${table(headings, rows)}`;
}
