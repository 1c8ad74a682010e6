/**
 * Heat from a hot face into a plate and on to the air in its channels: the plate as layers.
 *
 * Every layer parallel to the hot face has one temperature (heat spreads sideways at once), layers
 * conduct to their neighbours, and each stream of air exchanges heat with the layers it passes, in
 * its own order, warming up on its way. With air that does not warm up and one section all the way
 * this is the straight fin, tanh(mL)/(mL).
 */
import { AIR_WAY } from './heat-net.ts';
import { effectiveness } from './exchanger.ts';

/** Air through one kind of channel. */
export interface LayerStream {
  /** Channels of this kind. */
  readonly count: number;
  /** Heat capacity rate m' cp of one channel [W/K]. */
  readonly capacity_W_per_K: number;
  /** Steps along the stream. */
  readonly steps: number;
  /** Transfer units of each step, inlet first, to be multiplied by `scale`. */
  readonly units: Float64Array;
  readonly scale: number;
  /** Where it begins and ends, see `AIR_WAY`; streams that mix are added before those that share. */
  readonly way: number;
  /** Depth of each step's middle below the hot face, in layers: 0 = middle of the first [-]. */
  readonly place: Float64Array;
}

/** Working memory and result; made once for a number of layers. */
export interface LayerHeat {
  readonly layers: number;
  /** Conductance between layer i and i + 1 [W/K]. */
  readonly between_W_per_K: Float64Array;
  readonly matrix: Float64Array;
  /** Layer temperatures, 0 = incoming air, 1 = hot face. */
  readonly share: Float64Array;
  readonly air: Float64Array;
  /** Air in the room where streams mix: sum over them of rows times capacity, and of capacity. */
  readonly mixed: Float64Array;
  readonly mixing_W_per_K: Float64Array;
}

export function createLayerHeat(layers: number): LayerHeat {
  return {
    layers,
    between_W_per_K: new Float64Array(layers),
    matrix: new Float64Array(layers * layers),
    share: new Float64Array(layers),
    air: new Float64Array(layers),
    mixed: new Float64Array(layers),
    mixing_W_per_K: new Float64Array(1),
  };
}

/** Starts a plate: clears the matrix and enters the conductances, set before in `between_W_per_K`. */
export function startLayers(heat: LayerHeat, face_W_per_K: number): void {
  const { layers: n, matrix, share, between_W_per_K: between } = heat;
  matrix.fill(0);
  share.fill(0);
  heat.mixed.fill(0);
  heat.mixing_W_per_K[0] = 0;
  for (let i = 0; i + 1 < n; i += 1) {
    matrix[i * n + i] += between[i];
    matrix[i * n + i + 1] -= between[i];
    matrix[(i + 1) * n + i + 1] += between[i];
    matrix[(i + 1) * n + i] -= between[i];
  }
  matrix[0] += face_W_per_K;
  share[0] = face_W_per_K;
}

/**
 * Adds one stream. Its air is carried along as a row: how much each layer has warmed it so far.
 */
export function addStream(heat: LayerHeat, stream: LayerStream): void {
  const { layers: n, matrix, air } = heat;
  const { steps, units, place } = stream;
  const whole = stream.count * stream.capacity_W_per_K;
  air.fill(0);
  let from = n;
  let to = -1;
  if (stream.way === AIR_WAY.shares && heat.mixing_W_per_K[0] > 0) {
    for (let i = 0; i < n; i += 1) air[i] = heat.mixed[i] / heat.mixing_W_per_K[0];
    from = 0;
    to = n - 1;
  }
  for (let j = 0; j < steps; j += 1) {
    const e = effectiveness(stream.scale * units[j]);
    const depth = Math.min(n - 1, Math.max(0, place[j]));
    const low = Math.min(n - 2, Math.trunc(depth));
    const high = depth - low;
    if (low < from) from = low;
    if (low + 1 > to) to = low + 1;
    const lowRow = low * n;
    const highRow = lowRow + n;
    const lowWeight = whole * e * (1 - high);
    const highWeight = whole * e * high;
    matrix[lowRow + low] += lowWeight * (1 - high);
    matrix[lowRow + low + 1] += lowWeight * high;
    matrix[highRow + low] += highWeight * (1 - high);
    matrix[highRow + low + 1] += highWeight * high;
    const keep = 1 - e;
    for (let i = from; i <= to; i += 1) {
      const a = air[i];
      matrix[lowRow + i] -= lowWeight * a;
      matrix[highRow + i] -= highWeight * a;
      air[i] = keep * a;
    }
    air[low] += e * (1 - high);
    air[low + 1] += e * high;
  }
  if (stream.way === AIR_WAY.mixes) {
    for (let i = 0; i < n; i += 1) heat.mixed[i] += whole * air[i];
    heat.mixing_W_per_K[0] += whole;
  }
}

/**
 * Solves for the layer temperatures, left in `share`.
 *
 * @returns heat through the hot face per kelvin between it and the incoming air [W/K].
 */
export function solveLayers(heat: LayerHeat, face_W_per_K: number): number {
  const { layers: n, matrix, share } = heat;
  // The matrix never yields heat from nothing (its symmetric part is positive): no pivoting needed.
  for (let p = 0; p < n; p += 1) {
    const pivot = 1 / matrix[p * n + p];
    for (let row = p + 1; row < n; row += 1) {
      const factor = matrix[row * n + p] * pivot;
      if (factor === 0) continue;
      for (let c = p + 1; c < n; c += 1) matrix[row * n + c] -= factor * matrix[p * n + c];
      share[row] -= factor * share[p];
    }
  }
  for (let row = n - 1; row >= 0; row -= 1) {
    let sum = share[row];
    for (let c = row + 1; c < n; c += 1) sum -= matrix[row * n + c] * share[c];
    share[row] = sum / matrix[row * n + row];
  }
  return face_W_per_K * (1 - share[0]);
}

/**
 * Warming of a stream's air at its end, as a share of hot face less incoming air, at solved layers.
 *
 * @param start warming of the air that comes in.
 */
export function streamWarming(heat: LayerHeat, stream: LayerStream, start = 0): number {
  const { layers: n, share } = heat;
  let air = start;
  for (let j = 0; j < stream.steps; j += 1) {
    const depth = Math.min(n - 1, Math.max(0, stream.place[j]));
    const low = Math.min(n - 2, Math.trunc(depth));
    const high = depth - low;
    const wall = share[low] + high * (share[low + 1] - share[low]);
    air += effectiveness(stream.scale * stream.units[j]) * (wall - air);
  }
  return air;
}
