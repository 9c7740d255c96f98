/** Lowest and highest of some temperatures with a little room beyond, °C; a bath's usual range when there are none. */
export function rangeWithRoom(tempsC: readonly number[]): readonly [lowC: number, highC: number] {
  if (tempsC.length === 0) return [10, 100]
  const low = tempsC.reduce((a, b) => Math.min(a, b))
  const high = tempsC.reduce((a, b) => Math.max(a, b))
  const room = Math.max(1.5, (high - low) * 0.06)
  return [low - room, high + room]
}
