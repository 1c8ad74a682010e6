/** Support columns: from the pixels that need them down to the next solid or the bed. */
import { countOnes } from './grid.ts';
import type { Grid } from './grid.ts';

/** Pixels in need of support, layer after layer from the bed up, as non-empty words. */
interface SupportNeeds {
  count: number;
  /** Pixels of columns that end on the part instead of on the bed, after `dropSupport`. */
  footing: number;
  /** Word within the layer, its bits, and the layer. */
  word: Int32Array;
  bits: Int32Array;
  layer: Int32Array;
}

export function createSupportNeeds(): SupportNeeds {
  const none = new Int32Array(0);
  return { count: 0, footing: 0, word: none, bits: none, layer: none };
}

/** Notes the non-empty words [from, to) of a layer's bitmap. */
export function noteNeeds(
  needs: SupportNeeds,
  bitmap: Int32Array,
  from: number,
  to: number,
  layer: number,
): void {
  const most = needs.count + (to - from);
  if (needs.word.length < most) {
    const size = Math.max(most, 2 * needs.word.length);
    for (const key of ['word', 'bits', 'layer'] as const) {
      const wider = new Int32Array(size);
      wider.set(needs[key]);
      needs[key] = wider;
    }
  }
  for (let w = from; w < to; w++) {
    if (bitmap[w] === 0) continue;
    needs.word[needs.count] = w;
    needs.bits[needs.count] = bitmap[w];
    needs.layer[needs.count] = layer;
    needs.count++;
  }
}

/**
 * Lets the columns down through the layers.
 *
 * @param columns scratch bitmap of one layer.
 * @param perLayer receives the support pixels of each layer, or null.
 * @returns support pixels over all layers.
 */
export function dropSupport(
  grid: Grid,
  solid: Int32Array,
  needs: SupportNeeds,
  columns: Int32Array,
  perLayer: Float64Array | null,
): number {
  needs.footing = 0;
  if (needs.count === 0) return 0;
  const { layerWords } = grid;
  columns.fill(0, 0, layerWords);
  let from = layerWords;
  let to = 0;
  let total = 0;
  let next = needs.count - 1;
  for (let layer = needs.layer[next]; layer > 0; layer--) {
    for (; next >= 0 && needs.layer[next] === layer; next--) {
      const w = needs.word[next];
      columns[w] |= needs.bits[next];
      if (w < from) from = w;
      if (w >= to) to = w + 1;
    }
    const below = (layer - 1) * layerWords;
    let sum = 0;
    for (let w = from; w < to; w++) {
      if (columns[w] === 0) continue;
      needs.footing += countOnes(columns[w] & solid[below + w]);
      columns[w] &= ~solid[below + w];
      sum += countOnes(columns[w]);
    }
    total += sum;
    if (perLayer) perLayer[layer - 1] = sum;
  }
  return total;
}
