/** Small dense linear algebra, rows of numbers. */
export type Matrix = readonly (readonly number[])[]

/** Lower triangle L with L·Lᵀ = `a` (symmetric); `null` when `a` is not positive definite. */
export function cholesky(a: Matrix): Matrix | null {
  const n = a.length
  const lower: number[][] = []
  for (let i = 0; i < n; i++) {
    const row: number[] = []
    for (let j = 0; j <= i; j++) {
      let sum = a[i]![j]!
      for (let k = 0; k < j; k++) sum -= row[k]! * (j === i ? row[k]! : lower[j]![k]!)
      if (j < i) row.push(sum / lower[j]![j]!)
      else if (sum > 0) row.push(Math.sqrt(sum))
      else return null
    }
    lower.push(row)
  }
  return lower
}

/** Solves L·Lᵀ·x = b. */
export function solveCholesky(lower: Matrix, b: readonly number[]): number[] {
  const n = lower.length
  const x = [...b]
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i]! -= lower[i]![k]! * x[k]!
    x[i]! /= lower[i]![i]!
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i]! -= lower[k]![i]! * x[k]!
    x[i]! /= lower[i]![i]!
  }
  return x
}

/** Inverse of a symmetric positive definite matrix; `null` when it is not one. */
export function invertSymmetric(a: Matrix): Matrix | null {
  const lower = cholesky(a)
  if (lower === null) return null
  return a.map((_, column) =>
    solveCholesky(
      lower,
      a.map((_row, i) => (i === column ? 1 : 0)),
    ),
  )
}

/** gᵀ·A·g: the variance of a quantity with gradient `g` when A is the covariance. */
export function quadratic(a: Matrix, g: readonly number[]): number {
  let sum = 0
  for (const [i, row] of a.entries()) for (const [j, value] of row.entries()) sum += g[i]! * value * g[j]!
  return sum
}
