import { describe, expect, it } from 'vitest';
import { factorSymmetric } from '../../../src/numeric/index.ts';

describe('factorSymmetric()', () => {
  it('solves the second-difference system, whose answer is a parabola', () => {
    // -u'' = 1 on [0, 1], u(0) = u(1) = 0: second differences are exact for a parabola (Golub & Van
    // Loan, section 4.8), u = x (1 - x) / 2.
    const n = 9;
    const h = 1 / (n + 1);
    const matrix = new Float64Array(n * n);
    for (let i = 0; i < n; i++) {
      matrix[i * n + i] = 2;
      if (i > 0) matrix[i * n + i - 1] = -1;
      if (i + 1 < n) matrix[i * n + i + 1] = -1;
    }
    const u = factorSymmetric(matrix, n).solve(new Float64Array(n).fill(h * h));
    for (let i = 0; i < n; i++) {
      const x = (i + 1) * h;
      expect(u[i]).toBeCloseTo((x * (1 - x)) / 2, 14);
    }
  });

  it('refuses a matrix that is not positive definite', () => {
    expect(() => factorSymmetric(Float64Array.of(1, 2, 2, 1), 2)).toThrow(RangeError);
  });
});
