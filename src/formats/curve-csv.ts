/** Pairs of flow and pressure from a table: a fan's curve, or readings at a test bench. */
import { InputError, fault, nearestName } from '../brief/index.ts';
import type { Fault } from '../brief/index.ts';

export interface CurvePoint {
  readonly flow_m3_per_h: number;
  readonly pressure_Pa: number;
}

/** Cubic metres per hour in one of each unit; a cubic foot is 0.3048^3 m3 by definition. */
const FLOW_UNITS: Readonly<Record<string, number>> = {
  flow_m3_per_h: 1,
  flow_m3_per_min: 60,
  flow_m3_per_s: 3600,
  flow_L_per_min: 0.06,
  flow_L_per_s: 3.6,
  flow_cfm: 60 * 0.3048 * 0.3048 * 0.3048,
};

/** Pascals in one of each unit; water columns by the conventional 9.80665 m/s2 and 1000 kg/m3. */
const PRESSURE_UNITS: Readonly<Record<string, number>> = {
  pressure_Pa: 1,
  pressure_hPa: 100,
  pressure_kPa: 1000,
  pressure_mbar: 100,
  pressure_mmH2O: 9.80665,
  pressure_inH2O: 25.4 * 9.80665,
};

const MOST_ROWS = 10_000;

/**
 * Reads a table with a header that names one flow and one pressure column with their units, in any
 * order and among others. Columns are parted by commas, semicolons or tabs; where they are parted by
 * semicolons or tabs, numbers may have decimal commas. Lines that begin with # are comments.
 *
 * @param where name of the file, for messages.
 * @throws InputError naming every line that is no pair of numbers.
 * @example readCurveCsv('flow_L_per_s;pressure_Pa\n1,5;20', 'curve')[0].flow_m3_per_h // 5.4
 */
export function readCurveCsv(text: string, where: string): CurvePoint[] {
  const lines = text
    .split(/\r\n|\n|\r/u)
    .map((line, i) => ({ line: line.trim().replace(/^\ufeff/u, ''), number: i + 1 }))
    .filter(({ line }) => line !== '' && !line.startsWith('#'));
  if (lines.length < 2 || lines.length > MOST_ROWS) {
    const remedy = 'First a header such as flow_m3_per_h,pressure_Pa, then one pair per line.';
    const allowed = `have a header and 1 to ${MOST_ROWS - 1} lines`;
    throw new InputError([fault('', `a table of ${lines.length} lines`, allowed, remedy)], where);
  }
  const separator = [';', '\t', ','].find((mark) => lines[0].line.includes(mark)) ?? ',';
  const header = lines[0].line.split(separator).map((cell) => cell.trim().replaceAll('"', ''));
  const flow = findColumn(header, FLOW_UNITS, where);
  const pressure = findColumn(header, PRESSURE_UNITS, where);
  const faults: Fault[] = [];
  const points = lines.slice(1).map(({ line, number }) => {
    const cells = line.split(separator);
    const read = (column: Column): number => {
      const cell = (cells[column.at] ?? '').trim().replaceAll('"', '');
      const value =
        cell === '' ? Number.NaN : Number(separator === ',' ? cell : cell.replace(',', '.'));
      if (!Number.isFinite(value)) {
        const remedy = `Column ${header[column.at]} holds plain numbers.`;
        faults.push(fault(`line ${number}`, `"${cell}"`, 'be a number', remedy));
      }
      return value * column.factor;
    };
    return { flow_m3_per_h: read(flow), pressure_Pa: read(pressure) };
  });
  if (faults.length > 0) throw new InputError(faults, where);
  return points;
}

interface Column {
  readonly at: number;
  readonly factor: number;
}

function findColumn(
  header: readonly string[],
  units: Readonly<Record<string, number>>,
  where: string,
): Column {
  const known = Object.keys(units);
  const found = header.flatMap((name, at) => {
    const factor = units[name];
    return factor === undefined ? [] : [{ at, factor }];
  });
  if (found.length === 1) return found[0];
  const near = header.map((name) => nearestName(name, known)).find((name) => name !== null);
  const hint = near === undefined || found.length > 1 ? '' : `Did you mean ${near}? `;
  const allowed = `have exactly one of the columns ${known.join(', ')}`;
  const shown = `a header with the columns ${header.join(', ')}`;
  throw new InputError(
    [fault('line 1', shown, allowed, `${hint}The unit stands in the name.`)],
    where,
  );
}
