/** A front as large as the page promises to show fluently, made of a small one. */

interface AnyDesign {
  readonly id: string;
  readonly readings: readonly (number | null)[];
}

/**
 * The designs of a front file over and over, each copy a little beside its original in every measure.
 * The copies lie: their readings are those of no plate. They weigh what true ones would.
 *
 * @param text of a front file.
 */
export function crowdedFront(text: string, count: number): string {
  const front: { readonly designs: readonly AnyDesign[] } = JSON.parse(text);
  const designs = Array.from({ length: count }, (_, i) => {
    const design = front.designs[i % front.designs.length];
    const off = 1 + 0.04 * Math.sin(2.4 * i);
    return {
      ...design,
      id: `d${String(i + 1).padStart(4, '0')}`,
      readings: design.readings.map((value) => (value === null ? null : value * off)),
    };
  });
  return JSON.stringify({ ...front, designs });
}
