/** What a solid and the streams of air in it exchange. */

/**
 * Cells and what they exchange. Cell i conducts to its neighbours `next` (three upper ones; the
 * index `count` stands for none). Rings are stretches of wall that see one air temperature: ring r
 * has the patches [ringStart[r], ringStart[r + 1]), stream s the rings [streamStart[s],
 * streamStart[s + 1]) in the order of its air.
 */
export interface HeatNet {
  readonly count: number;
  /** Upper neighbours [3 x count] and conductances to them [3 x count] [W/K]. */
  readonly next: Int32Array;
  readonly toNext_W_per_K: Float64Array;
  /** Conductance to the hot body [count] [W/K]. */
  readonly toFace_W_per_K: Float64Array;
  readonly streams: number;
  readonly streamStart: Int32Array;
  /** Heat capacity rate of each stream [W/K]. */
  readonly capacity_W_per_K: Float64Array;
  /** Where each stream begins and ends, see `AIR_WAY`; those that mix come before those that share. */
  readonly way: Int8Array;
  readonly ringStart: Int32Array;
  /** Cell of each patch and conductance from cell to air [W/K]. */
  readonly patchCell: Int32Array;
  readonly patch_W_per_K: Float64Array;
}

/**
 * Ways of a stream: from outside to outside; from outside into a room where streams mix; from there
 * to outside.
 */
export const AIR_WAY = { through: 0, mixes: 1, shares: 2 } as const;
