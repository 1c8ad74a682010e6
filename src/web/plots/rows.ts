/** Places of designs in their front. */
import type { DesignKey, LoadedFront } from '../state/fronts.ts';

/** Place of a design in a front by key; -1 for one of another front. */
export function rowOf({ id, front }: LoadedFront, key: DesignKey | null): number {
  if (key === null || !key.startsWith(`${id}/`)) return -1;
  const own = key.slice(id.length + 1);
  return front.designs.findIndex((design) => design.id === own);
}
