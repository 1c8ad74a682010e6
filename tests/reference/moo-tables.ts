/**
 * Check values for the search, read from `data/moo.json`. Made by independent programs: closed forms,
 * exact slicing, and the published formulas of crossover and mutation evaluated outside this project.
 */
import * as z from 'zod';
import moo from './data/moo.json' with { type: 'json' };

const numbers = z.array(z.number());
const { tables } = moo;

/** x1, x2, u, eta, children without bounds, children within 0..1 (Deb & Agrawal 1995). */
export const CROSSINGS = z
  .array(z.tuple([z.number(), z.number(), z.number(), z.number(), numbers, numbers]))
  .parse(tables.sbx_children.rows);

/** x, u, eta, child within 0..1 (bounded polynomial mutation, Deb's published program). */
export const MUTATIONS = z
  .array(z.tuple([z.number(), z.number(), z.number(), z.number()]))
  .parse(tables.polynomial_mutation.rows);

/** Points, reference, exact hypervolume. */
export const SMALL_VOLUMES = z
  .array(z.tuple([z.array(numbers), numbers, z.number()]))
  .parse(tables.small_hypervolumes.rows);

/** A front and its crowding distances, 'inf' at the ends (Deb et al. 2002). */
export const CROWDED_FRONTS = z
  .array(z.tuple([z.array(numbers), z.array(z.union([z.number(), z.literal('inf')]))]))
  .parse(tables.crowding_distance.rows);

/** First objective from and to on each piece of the front of ZDT3. */
export const ZDT3_PIECES = z
  .array(z.tuple([z.number(), z.number()]))
  .parse(tables.zdt3_front_segments_f1.rows);

/** Hypervolumes of continuous fronts at the reference point that the test problems use. */
export const FRONT_VOLUMES = z
  .array(z.tuple([z.string(), z.number(), z.number()]))
  .parse(tables.true_front_hypervolume.rows)
  .map(([, , volume]) => volume);
