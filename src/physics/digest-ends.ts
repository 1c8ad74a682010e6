/** Where a channel begins and ends: the part of its digest that ends and pockets cost. */
import type {
  ChannelDigests,
  DigestConditions,
  DigestRoom,
  StationArrays,
} from './channel-digest.ts';
import { DIGEST } from './digest-layout.ts';
import { creepingEnd, obliqueInletExtra } from './ends.ts';
import { gridFactor } from './grid.ts';

const { SHAPE_FIELDS, S_CREEP, S_EXIT, S_INLET, S_NARROWEST, S_PORT } = DIGEST;

/** What the losses at a shape's ends are made of: area and D_h at inlet and outlet, least area [SI]. */
export const END_NUMBERS = { AREA: 0, AREA_OUT: 1, SIZE: 2, SIZE_OUT: 3, NARROWEST: 4, COUNT: 5 };

/** Gathers the `END_NUMBERS` of the shape at hand into the scratch. */
export function gatherEnds(digests: DigestRoom, index: number, arrays: StationArrays): void {
  const { area, diameter, port } = digests.scratch;
  const { stations } = digests;
  let narrowest = area[0];
  for (let i = 1; i < stations; i += 1) if (area[i] < narrowest) narrowest = area[i];
  if (arrays.teeth !== undefined && arrays.teeth.pitch[index] > 0) {
    for (let i = 0; i < stations; i += 1) {
      const height = arrays.teeth.height[index * stations + i] * arrays.unit_m;
      const open = 1 - (2 * height) / diameter[i];
      narrowest = Math.min(narrowest, area[i] * open * open);
    }
  }
  port[END_NUMBERS.AREA] = area[0];
  port[END_NUMBERS.AREA_OUT] = area[stations - 1];
  port[END_NUMBERS.SIZE] = diameter[0];
  port[END_NUMBERS.SIZE_OUT] = diameter[stations - 1];
  port[END_NUMBERS.NARROWEST] = narrowest;
}

/**
 * Writes what a shape's ends and pockets cost.
 *
 * @param port holds its `END_NUMBERS` from `at` on.
 */
export function digestEnds(
  digests: ChannelDigests,
  index: number,
  arrays: StationArrays,
  port: Float64Array,
  at: number,
  pockets: number,
  conditions: DigestConditions,
): void {
  const { shape, stations } = digests;
  const half = 0.5 * conditions.air.density_kg_per_m3;
  const mu = conditions.air.viscosity_Pa_s;
  const row = SHAPE_FIELDS * index;
  const along = arrays.inletRise
    ? arrays.inletRise[index]
    : arrays.tangent[3 * index * stations + 2];
  const cosine = Math.sqrt(Math.max(0, 1 - along * along));
  const area = port[at + END_NUMBERS.AREA];
  const areaOut = port[at + END_NUMBERS.AREA_OUT];
  const size = port[at + END_NUMBERS.SIZE];
  const sizeOut = port[at + END_NUMBERS.SIZE_OUT];
  const narrowest = port[at + END_NUMBERS.NARROWEST];
  const slender = (arrays.length[index] * arrays.unit_m) / size;
  const short = conditions.thinShare * gridFactor(slender);
  shape[row + S_CREEP] = creepingEnd(mu, size / 2) + creepingEnd(mu, sizeOut / 2);
  shape[row + S_EXIT] = half / (areaOut * areaOut) + (pockets * half) / (narrowest * narrowest);
  shape[row + S_INLET] =
    ((conditions.inletLoss + short + obliqueInletExtra(cosine)) * half) / (area * area);
  shape[row + S_PORT] = 1 / area;
  shape[row + S_NARROWEST] = 1 / narrowest;
}
