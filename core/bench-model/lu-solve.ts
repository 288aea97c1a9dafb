/**
 * Factorises the `n` by `n` row-major matrix in place, with partial pivoting (LU; Golub and
 * Van Loan, Matrix Computations, 3.4). `pivots` takes the row swaps.
 */
export function luFactor(matrix: Float64Array, n: number, pivots: Int32Array): void {
  for (let k = 0; k < n; k += 1) {
    let best = k;
    for (let i = k + 1; i < n; i += 1) {
      if (Math.abs(matrix[i * n + k]!) > Math.abs(matrix[best * n + k]!)) best = i;
    }
    pivots[k] = best;
    if (best !== k) {
      for (let j = 0; j < n; j += 1) {
        const held = matrix[k * n + j]!;
        matrix[k * n + j] = matrix[best * n + j]!;
        matrix[best * n + j] = held;
      }
    }
    const pivot = matrix[k * n + k]!;
    for (let i = k + 1; i < n; i += 1) {
      const held = matrix[i * n + k]!;
      if (held === 0) continue;
      const factor = held / pivot;
      matrix[i * n + k] = factor;
      for (let j = k + 1; j < n; j += 1) matrix[i * n + j]! -= factor * matrix[k * n + j]!;
    }
  }
}

/** Solves for one right side, in place, with what `luFactor` left. */
export function luSolve(
  matrix: Float64Array,
  n: number,
  pivots: Int32Array,
  side: Float64Array,
): void {
  for (let k = 0; k < n; k += 1) {
    const best = pivots[k]!;
    if (best !== k) {
      const held = side[k]!;
      side[k] = side[best]!;
      side[best] = held;
    }
  }
  for (let i = 1; i < n; i += 1) {
    let sum = side[i]!;
    for (let j = 0; j < i; j += 1) sum -= matrix[i * n + j]! * side[j]!;
    side[i] = sum;
  }
  for (let i = n - 1; i >= 0; i -= 1) {
    let sum = side[i]!;
    for (let j = i + 1; j < n; j += 1) sum -= matrix[i * n + j]! * side[j]!;
    side[i] = sum / matrix[i * n + i]!;
  }
}
