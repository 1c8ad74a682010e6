import { describe, expect, it } from 'vitest';
import { createArchive, unpackArchive } from '../../../src/search/index.ts';

const row = (...x: number[]): Float64Array => Float64Array.from(x);

describe('createArchive()', () => {
  it('keeps genes, objectives and payloads of its entries together, in order of objectives', () => {
    const archive = createArchive({ capacity: 10, objectives: 2, genes: 3 });
    archive.insert(row(1, 2, 3), row(5, 1), 71);
    archive.insert(row(4, 5, 6), row(1, 5), 72);
    archive.insert(row(7, 8, 9), row(3, 3), 73);
    expect([...archive.values()]).toEqual([1, 5, 3, 3, 5, 1]);
    expect([...archive.genes()]).toEqual([4, 5, 6, 7, 8, 9, 1, 2, 3]);
    expect(archive.payloads()).toEqual([72, 73, 71]);
  });

  it('insert() says whether the row is held, and drops what it dominates', () => {
    const archive = createArchive({ capacity: 10, objectives: 2, genes: 1 });
    expect(archive.insert(row(0), row(2, 2), 1)).toBe(true);
    expect(archive.insert(row(0), row(3, 2), 2)).toBe(false);
    expect(archive.insert(row(0), row(1, 2), 3)).toBe(true);
    expect(archive.payloads()).toEqual([3]);
  });

  it('insert() keeps the lesser genes of equal objectives, whichever comes first', () => {
    for (const order of [
      [0.2, 0.1],
      [0.1, 0.2],
    ]) {
      const archive = createArchive({ capacity: 10, objectives: 2, genes: 1 });
      for (const gene of order) archive.insert(row(gene), row(1, 1), gene * 10);
      expect([...archive.genes()]).toEqual([0.1]);
      expect(archive.payloads()).toEqual([1]);
    }
  });

  it('insert() refuses what is not finite', () => {
    const archive = createArchive({ capacity: 4, objectives: 2, genes: 1 });
    expect(archive.insert(row(0), row(Number.NaN, 1), 1)).toBe(false);
    expect(archive.insert(row(0), row(0, Number.NEGATIVE_INFINITY), 1)).toBe(false);
    expect(archive.insert(row(0), row(0, 0), 1, Number.NaN)).toBe(false);
    expect(archive.size()).toBe(0);
    expect(archive.bestInfeasible()).toBeNull();
  });

  it('insert() copies what it is given', () => {
    const archive = createArchive({ capacity: 4, objectives: 2, genes: 1 });
    const values = row(1, 1);
    archive.insert(row(0), values, 1);
    values[0] = 9;
    expect([...archive.values()]).toEqual([1, 1]);
  });

  it('dominates() is true for equal and worse vectors only', () => {
    const archive = createArchive({ capacity: 4, objectives: 2, genes: 1 });
    archive.insert(row(0), row(1, 1), 1);
    expect(archive.dominates(row(1, 1))).toBe(true);
    expect(archive.dominates(row(1, 2))).toBe(true);
    expect(archive.dominates(row(0.9, 2))).toBe(false);
  });

  it('bestInfeasible() is the least broken row until something feasible comes', () => {
    const archive = createArchive({ capacity: 4, objectives: 2, genes: 1 });
    archive.insert(row(1), row(0, 0), 1, 0.5);
    archive.insert(row(2), row(9, 9), 2, 0.2);
    archive.insert(row(3), row(1, 1), 3, 0.4);
    expect(archive.size()).toBe(0);
    expect(archive.bestInfeasible()?.payload).toBe(2);
    expect(unpackArchive(JSON.parse(JSON.stringify(archive.pack()))).bestInfeasible()).toEqual(
      archive.bestInfeasible(),
    );
    archive.insert(row(4), row(5, 5), 4);
    expect(archive.bestInfeasible()).toBeNull();
    archive.insert(row(5), row(0, 0), 5, 0.1);
    expect(archive.bestInfeasible()).toBeNull();
  });

  it('spares the most closely covered entry, not the ends', () => {
    const archive = createArchive({ capacity: 4, objectives: 2, genes: 1 });
    archive.insert(row(0), row(0, 10), 0);
    archive.insert(row(0), row(10, 0), 1);
    archive.insert(row(0), row(4, 4), 2);
    archive.insert(row(0), row(4.1, 3.9), 3);
    archive.insert(row(0), row(2, 7), 4);
    // The four left after losing one of the close pair, which cover each other to 0.1.
    expect(archive.payloads()).toHaveLength(4);
    expect(archive.payloads()).toEqual(expect.arrayContaining([0, 1, 4]));
  });

  it('refuses a capacity below the number of objectives and rows of the wrong length', () => {
    expect(() => createArchive({ capacity: 2, objectives: 3, genes: 1 })).toThrow('capacity is 2');
    const archive = createArchive({ capacity: 4, objectives: 2, genes: 1 });
    expect(() => archive.insert(row(0, 1), row(0, 0), 1)).toThrow('2 genes and 2 objectives');
  });

  it('unpackArchive() names what is wrong', () => {
    const archive = createArchive({ capacity: 4, objectives: 2, genes: 1 });
    archive.insert(row(1), row(0, 0), 1);
    const packed = { ...Object(archive.pack()) };
    expect(() => unpackArchive([])).toThrow('packed anfract-archive is object');
    expect(() => unpackArchive({ ...packed, values: [1] })).toThrow(
      'packed values has 1 numbers; it must have 2',
    );
    expect(() => unpackArchive({ ...packed, capacity: -1 })).toThrow('packed capacity is -1');
    expect(() => unpackArchive({ ...packed, payloads: [1, 2, 3, 4, 5] })).toThrow(
      'the capacity is 4',
    );
  });
});
