/** Systems of linear equations: the only file that touches ml-matrix. */
import { CholeskyDecomposition, Matrix } from 'ml-matrix';

/** A factorised symmetric system, to be solved for any number of right-hand sides. */
export interface SymmetricSystem {
  /** Solution x of A x = right [n]. */
  solve(right: Float64Array): Float64Array;
}

/**
 * Factorises a symmetric positive definite matrix by Cholesky.
 *
 * Only sums, products and square roots are taken, so that the result is the same in every engine.
 *
 * @param matrix row-major, both triangles filled [n x n].
 * @throws RangeError when the matrix is not positive definite.
 * @example factorSymmetric(Float64Array.of(4, 2, 2, 3), 2).solve(Float64Array.of(8, 8))[1] // 2
 * Source: Golub & Van Loan, Matrix Computations, section 4.2 (handbook).
 */
export function factorSymmetric(matrix: Float64Array, n: number): SymmetricSystem {
  const rows = new Matrix(n, n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) rows.set(i, j, matrix[i * n + j]);
  }
  const factor = new CholeskyDecomposition(rows);
  if (!factor.isPositiveDefinite()) {
    throw new RangeError('The matrix is not positive definite; the system has no single solution.');
  }
  return {
    solve(right) {
      const column = new Matrix(n, 1);
      for (let i = 0; i < n; i++) column.set(i, 0, right[i]);
      const solved = factor.solve(column);
      return Float64Array.from({ length: n }, (_, i) => solved.get(i, 0));
    },
  };
}
