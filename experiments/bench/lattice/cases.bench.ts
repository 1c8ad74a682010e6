/** The flow solver against another solver, on 15 and 20 cells across: errors, uncertainty and time. */
import { readFileSync } from 'node:fs';
import { verifyDuct } from '../../../src/flow/index.ts';
import { CASE_SIDE_MM, caseDuct } from './cases.ts';
import type { Case } from './cases.ts';

const { cases } = JSON.parse(readFileSync('tests/reference/data/cfd.json', 'utf8')) as {
  readonly cases: readonly Case[];
};
const errors: number[] = [];
for (const entry of cases.filter((one) => one.meanVelocity_m_s <= 4)) {
  const began = process.cpuUsage().user;
  const march = verifyDuct(caseDuct(entry.geometry), {
    side_mm: CASE_SIDE_MM,
    cells: 15,
    reynolds: entry.reynolds,
    narrowing: 1,
  });
  let next = march.next();
  while (next.done !== true) next = march.next();
  const { loss, uncertainty, grids } = next.value;
  const percent = (value: number): string => (100 * (value / entry.lossCoefficient - 1)).toFixed(2);
  errors.push(Math.abs(loss / entry.lossCoefficient - 1));
  process.stdout.write(
    `${entry.geometry} ${entry.meanVelocity_m_s} m/s: ${percent(grids[0].loss)} % at 15, ${percent(loss)} % at 20, stated +-${(100 * uncertainty).toFixed(1)} %, ${grids[1].converged ? 'at rest' : 'unsteady'}, ${((process.cpuUsage().user - began) / 1e6).toFixed(0)} s\n`,
  );
}
const order = errors.toSorted((a, b) => a - b);
process.stdout.write(
  `median ${(100 * order[order.length >> 1]).toFixed(2)} %, greatest ${(100 * order[order.length - 1]).toFixed(2)} %\n`,
);
