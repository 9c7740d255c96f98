/** Milliseconds: of the first time, and of the ones after it the median and the longest. */
export interface Times {
  readonly firstMs: number
  readonly medianMs: number
  readonly longestMs: number
}

/** @param all milliseconds in the order they were measured, the first time apart from the rest; at least two. */
export function timesOf(all: readonly number[]): Times {
  const [firstMs, ...rest] = all
  rest.sort((a, b) => a - b)
  return { firstMs: firstMs!, medianMs: rest[Math.floor(rest.length / 2)]!, longestMs: rest.at(-1)! }
}

export const timesText = ({ firstMs, medianMs, longestMs }: Times): string =>
  `first ${ms(firstMs)} ms   median ${ms(medianMs)} ms   longest ${ms(longestMs)} ms`

const ms = (value: number): string => value.toFixed(1).padStart(7)
