/** Which genes matter: elementary effects along random walks through the space of genes (Morris). */
import type { RandomStream } from '../numeric/index.ts';
import { shuffle } from './latin.ts';
import { GENE_KINDS } from './space.ts';
import type { GeneSpace } from './space.ts';

/** Levels of the grid in the unit cube, even; a step is half of it and one level more. */
const LEVELS = 8;
const STEP = LEVELS / (2 * (LEVELS - 1));

export interface MorrisWalks {
  /** Rows of genes to be scored, row-major [walks x (d + 1) x d]. */
  readonly rows: Float64Array;
  /** Gene moved from row k to row k + 1 of a walk [walks x d]. */
  readonly moved: Int32Array;
  /** Direction of that move, +1 or -1 in the unit cube [walks x d]. */
  readonly sign: Int8Array;
  readonly walks: number;
}

/**
 * Random walks: each starts on a grid of the unit cube and moves every gene once, by half the range and
 * one level, in random order. Integers and choices take equal shares of the unit range.
 *
 * Source: Morris 1991, Technometrics 33:161.
 */
export function walkSpace(space: GeneSpace, walks: number, stream: RandomStream): MorrisWalks {
  const d = space.kinds.length;
  const rows = new Float64Array(walks * (d + 1) * d);
  const moved = new Int32Array(walks * d);
  const sign = new Int8Array(walks * d);
  const unit = new Float64Array(d);
  const order = Int32Array.from({ length: d }, (_, g) => g);
  for (let w = 0; w < walks; w++) {
    for (let g = 0; g < d; g++) unit[g] = Math.floor(stream.next() * LEVELS) / (LEVELS - 1);
    shuffle(order, d, stream);
    writeGenes(space, unit, rows, w * (d + 1) * d);
    for (let k = 0; k < d; k++) {
      const g = order[k];
      // Only one direction stays inside: the step is longer than half the range.
      const up = unit[g] + STEP <= 1 + 1e-12;
      unit[g] += up ? STEP : -STEP;
      moved[w * d + k] = g;
      sign[w * d + k] = up ? 1 : -1;
      writeGenes(space, unit, rows, (w * (d + 1) + k + 1) * d);
    }
  }
  return { rows, moved, sign, walks };
}

function writeGenes(space: GeneSpace, unit: Float64Array, rows: Float64Array, at: number): void {
  for (let g = 0; g < unit.length; g++) {
    const lower = space.lower[g];
    const upper = space.upper[g];
    const share = Math.min(1, Math.max(0, unit[g]));
    rows[at + g] =
      space.kinds[g] === GENE_KINDS.real
        ? lower + share * (upper - lower)
        : Math.min(upper, lower + Math.floor(share * (upper - lower + 1)));
  }
}

export interface MorrisEffects {
  /** Mean of the absolute effects over the whole range of a gene [d]; NaN where none could be taken. */
  readonly strength: Float64Array;
  /** Mean with sign [d]: how the value goes with the gene. */
  readonly mean: Float64Array;
  /** Standard deviation of the effects [d]: great where a gene bends or works together with others. */
  readonly spread: Float64Array;
  /** Effects that stand behind them [d]; fewer than walks where rows could not be scored. */
  readonly count: Int32Array;
}

/**
 * Effects of each gene on one value.
 *
 * @param values one per row of the walks; NaN where a row could not be scored.
 * Source: Morris 1991; absolute mean (mu star) Campolongo, Cariboni & Saltelli 2007, Environ. Model.
 * Softw. 22:1509.
 */
export function morrisEffects(walks: MorrisWalks, values: Float64Array): MorrisEffects {
  const d = walks.moved.length / walks.walks;
  const strength = new Float64Array(d);
  const mean = new Float64Array(d);
  const squares = new Float64Array(d);
  const count = new Int32Array(d);
  for (let w = 0; w < walks.walks; w++) {
    for (let k = 0; k < d; k++) {
      const at = w * (d + 1) + k;
      const effect = (walks.sign[w * d + k] * (values[at + 1] - values[at])) / STEP;
      if (!Number.isFinite(effect)) continue;
      const g = walks.moved[w * d + k];
      strength[g] += Math.abs(effect);
      mean[g] += effect;
      squares[g] += effect * effect;
      count[g]++;
    }
  }
  const spread = new Float64Array(d);
  for (let g = 0; g < d; g++) {
    strength[g] /= count[g];
    mean[g] /= count[g];
    const variance = (squares[g] / count[g] - mean[g] * mean[g]) * (count[g] / (count[g] - 1));
    spread[g] = Math.sqrt(Math.max(0, variance));
  }
  return { strength, mean, spread, count };
}
