import { describe, expect, it } from 'vitest';
import { keyOfGenes } from '../../../src/web/state/genes-key.ts';

describe('keyOfGenes()', () => {
  it('is one for equal genes, whatever the sign of a zero', () => {
    expect(keyOfGenes([0.1, -0, 3])).toBe(keyOfGenes([0.1, 0, 3]));
  });

  it('tells 100 000 rows apart, also those that differ in one last bit or in their order', () => {
    const keys = new Set<string>();
    let rows = 0;
    const take = (genes: readonly number[]): void => {
      keys.add(keyOfGenes(genes));
      rows++;
    };
    for (let i = 0; i < 50_000; i++) {
      take([i % 7, 1 + i * Number.EPSILON, 4]);
      take([4, 1 + i * Number.EPSILON, (i % 7) + 10]);
    }
    take([]);
    take([0]);
    take([0, 0]);
    expect(keys.size).toBe(rows);
  });
});
