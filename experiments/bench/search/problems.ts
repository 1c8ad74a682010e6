/**
 * Test problems with known fronts. ZDT: Zitzler, Deb & Thiele 2000, Evolutionary Computation 8:173.
 * DTLZ: Deb, Thiele, Laumanns & Zitzler 2005. They run in tests and benches only, so they use `Math`.
 */
import type { GeneSpace } from '../../../src/search/index.ts';

export interface Problem {
  readonly name: string;
  readonly genes: number;
  readonly objectives: number;
  readonly lower: number;
  /** Reference coordinate of the hypervolume, the same in every objective. */
  readonly reference: number;
  /** Hypervolume of the continuous front (closed form; ZDT3 by fine sampling). */
  readonly limit: number;
  /** Scores n rows [n x d] into values [n x m]. */
  evaluate(rows: Float64Array, n: number, values: Float64Array): void;
}

/** Bounds of a problem: the first gene lies in 0..1, the others in lower..-lower or 0..1. */
export function spaceOf(problem: Problem): GeneSpace {
  const d = problem.genes;
  const lower = new Float64Array(d).fill(problem.lower);
  const upper = new Float64Array(d).fill(problem.lower < 0 ? -problem.lower : 1);
  lower[0] = 0;
  upper[0] = 1;
  return { kinds: new Uint8Array(d), lower, upper };
}

type Shape = (f1: number, g: number) => number;

function zdt(name: string, limit: number, shape: Shape): Problem {
  const d = 30;
  return {
    name,
    genes: d,
    objectives: 2,
    lower: 0,
    reference: 1.1,
    limit,
    evaluate(rows, n, values) {
      for (let i = 0; i < n; i++) {
        let sum = 0;
        for (let g = i * d + 1; g < (i + 1) * d; g++) sum += rows[g];
        const g = 1 + (9 * sum) / (d - 1);
        values[2 * i] = rows[i * d];
        values[2 * i + 1] = g * shape(rows[i * d], g);
      }
    },
  };
}

const ZDT4: Problem = {
  name: 'ZDT4',
  genes: 10,
  objectives: 2,
  lower: -5,
  reference: 1.1,
  limit: 0.8766667,
  evaluate(rows, n, values) {
    for (let i = 0; i < n; i++) {
      let g = 91;
      for (let k = i * 10 + 1; k < (i + 1) * 10; k++) {
        g += rows[k] * rows[k] - 10 * Math.cos(4 * Math.PI * rows[k]);
      }
      values[2 * i] = rows[i * 10];
      values[2 * i + 1] = g * (1 - Math.sqrt(rows[i * 10] / g));
    }
  },
};

const ZDT6: Problem = {
  name: 'ZDT6',
  genes: 10,
  objectives: 2,
  lower: 0,
  reference: 1.1,
  limit: 0.5078775,
  evaluate(rows, n, values) {
    for (let i = 0; i < n; i++) {
      const x = rows[i * 10];
      let sum = 0;
      for (let k = i * 10 + 1; k < (i + 1) * 10; k++) sum += rows[k];
      const f1 = 1 - Math.exp(-4 * x) * Math.sin(6 * Math.PI * x) ** 6;
      const g = 1 + 9 * (sum / 9) ** 0.25;
      values[2 * i] = f1;
      values[2 * i + 1] = g * (1 - (f1 / g) * (f1 / g));
    }
  },
};

interface DtlzKind {
  readonly limit: number;
  readonly reference: number;
  /** Number of distance genes. */
  readonly k: number;
  readonly rugged: boolean;
  readonly linear: boolean;
  readonly bias: number;
}

function dtlz(name: string, m: number, kind: DtlzKind): Problem {
  const d = m - 1 + kind.k;
  const cosines = new Float64Array(m);
  const sines = new Float64Array(m);
  return {
    name,
    genes: d,
    objectives: m,
    lower: 0,
    reference: kind.reference,
    limit: kind.limit,
    evaluate(rows, n, values) {
      for (let i = 0; i < n; i++) {
        let g = 0;
        for (let j = i * d + m - 1; j < (i + 1) * d; j++) {
          const x = rows[j] - 0.5;
          g += x * x;
          if (kind.rugged) g += 1 - Math.cos(20 * Math.PI * x);
        }
        if (kind.rugged) g *= 100;
        for (let j = 0; j < m - 1; j++) {
          const x = kind.bias === 1 ? rows[i * d + j] : rows[i * d + j] ** kind.bias;
          cosines[j] = kind.linear ? x : Math.cos((Math.PI / 2) * x);
          sines[j] = kind.linear ? 1 - x : Math.sin((Math.PI / 2) * x);
        }
        let product = (kind.linear ? 0.5 : 1) * (1 + g);
        for (let j = 0; j < m; j++) {
          const objective = m - 1 - j;
          values[i * m + objective] = objective === 0 ? product : product * sines[j];
          product *= cosines[j];
        }
      }
    },
  };
}

const ROUND = { limit: 0.8074012, reference: 1.1, k: 10, rugged: false, linear: false, bias: 1 };

export const PROBLEMS: readonly Problem[] = [
  zdt('ZDT1', 0.8766667, (f1, g) => 1 - Math.sqrt(f1 / g)),
  zdt('ZDT2', 0.5433333, (f1, g) => 1 - (f1 / g) * (f1 / g)),
  zdt('ZDT3', 1.331763, (f1, g) => 1 - Math.sqrt(f1 / g) - (f1 / g) * Math.sin(10 * Math.PI * f1)),
  ZDT4,
  ZDT6,
  dtlz('DTLZ1', 3, {
    limit: 0.1455417,
    reference: 0.55,
    k: 5,
    rugged: true,
    linear: true,
    bias: 1,
  }),
  dtlz('DTLZ2', 3, ROUND),
  dtlz('DTLZ3', 3, { ...ROUND, rugged: true }),
  dtlz('DTLZ4', 3, { ...ROUND, bias: 100 }),
];

/** DTLZ2 with any number of objectives. */
export function dtlz2(m: number): Problem {
  return dtlz(`DTLZ2 (${m})`, m, { ...ROUND, limit: Number.NaN });
}

export function problemNamed(name: string): Problem {
  const problem = PROBLEMS.find((candidate) => candidate.name === name);
  if (problem === undefined) throw new Error(`No test problem is named ${name}.`);
  return problem;
}
