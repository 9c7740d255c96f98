import type { PotReading } from './pot-reading.ts'

/** Mean of readings that belong together. */
export interface Bin {
  readonly atMs: number
  readonly tempC: number
  /** Spread of the mean that comes from the probe's steps, °C. */
  readonly roughC: number
}

/** The model begins where these first readings are, s: a longer mean would make the heat look prompter than it is. */
const FIRST_S = 5
/** A mean is this long at least, s; of a long day, so long that there are about so many of them. */
const LEAST_S = 20
const ABOUT = 500
/** A bath that stays within one step of the probe is looked at this often, s. */
const LONGEST_S = 600

/**
 * Means over 20 s or more, strays left out, none across a cut (Unix ms, in order). A probe of coarse steps shows one
 * for minutes while the bath goes through it; such a run is not torn, for the bath stood at that step in its middle.
 * Of a run that was cut, or that the bath left where it came in, the change of step at its border is taken, and where
 * there is none, that the bath was somewhere within the step.
 */
export function binned(
  readings: readonly PotReading[],
  stepC: number,
  cuts: readonly number[],
): readonly Bin[] {
  return groupsOf(readings, cuts).map((group) => binOf(readings, group, stepC))
}

/** Readings `from` … `to` − 1. A cut is a border that the readings did not make themselves. */
interface Group {
  readonly from: number
  readonly to: number
  readonly cutBefore: boolean
  readonly cutAfter: boolean
}

function groupsOf(readings: readonly PotReading[], cuts: readonly number[]): readonly Group[] {
  if (readings.length === 0) return []
  const groups: Group[] = []
  const leastMs = Math.max(1000 * LEAST_S, (readings.at(-1)!.atMs - readings[0]!.atMs) / ABOUT)
  let [from, passed, cutBefore] = [0, 0, true]
  for (let i = 0; i < readings.length; i++) {
    const { atMs, tempC } = readings[i]!
    const isSaid = passed < cuts.length && cuts[passed]! <= atMs
    while (passed < cuts.length && cuts[passed]! <= atMs) passed += 1
    if (i === 0) continue
    const isFirst = groups.length === 0
    const goesOn = tempC === readings[i - 1]!.tempC
    const longMs = atMs - readings[from]!.atMs
    const isLong = longMs >= (isFirst ? 1000 * FIRST_S : goesOn ? 1000 * LONGEST_S : leastMs)
    if (!isSaid && !isLong) continue
    const cutAfter = isSaid || goesOn
    groups.push({ from, to: i, cutBefore, cutAfter })
    ;[from, cutBefore] = [i, cutAfter]
  }
  return [...groups, { from, to: readings.length, cutBefore, cutAfter: true }]
}

/** So many changes within a mean average the steps out. */
const DITHERS = 3

function binOf(readings: readonly PotReading[], group: Group, stepC: number): Bin {
  const { from, to, cutBefore, cutAfter } = group
  const changeC = (i: number) => readings[i]!.tempC - readings[i - 1]!.tempC
  const whole = meanOf(readings.slice(from, to))
  let changes = 0
  for (let i = from + 1; i < to; i++) if (changeC(i) !== 0) changes += 1
  if (changes >= DITHERS) return { ...whole, roughC: evenlyWithin(stepC) / Math.sqrt(to - from) }
  if (cutBefore && cutAfter) return { ...whole, roughC: evenlyWithin(stepC) }
  // How far the bath went from one reading to the next: between two of them nobody saw it change.
  if (!cutBefore && !cutAfter && changeC(from) * changeC(to) > 0)
    return { ...whole, roughC: evenlyWithin((changeC(from) + changeC(to)) / (to - from + 1)) }
  const border = cutBefore ? to : from
  const roughC = evenlyWithin(changeC(border) / (to - from))
  return { ...meanOf(readings.slice(border - 1, border + 1)), roughC }
}

/** Spread of what may lie anywhere within so many degrees with equal chance, °C. */
const evenlyWithin = (widthC: number): number => Math.abs(widthC) / Math.sqrt(12)

/** The steps that a probe counts in, °C: the tenth part of its changes are at most so large. 0: it never changes. */
export function stepOf(readings: readonly PotReading[]): number {
  const changes = readings
    .slice(1)
    .map(({ tempC }, i) => Math.abs(tempC - readings[i]!.tempC))
    .filter((changeC) => changeC > 0)
    .sort((a, b) => a - b)
  return changes[Math.floor(changes.length / 10)] ?? 0
}

/** How far a reading may lie from the middle one of its bin, °C. */
const STRAY_C = 2

function meanOf(bin: readonly PotReading[]): PotReading {
  const byTemp = [...bin].sort((a, b) => a.tempC - b.tempC)
  const middleC = byTemp[Math.floor(byTemp.length / 2)]!.tempC
  const kept = bin.filter((reading) => Math.abs(reading.tempC - middleC) <= STRAY_C)
  const sum = (of: (reading: PotReading) => number) => kept.reduce((total, r) => total + of(r), 0)
  const atMs = kept[0]!.atMs + sum((r) => r.atMs - kept[0]!.atMs) / kept.length
  return { atMs, tempC: sum((r) => r.tempC) / kept.length }
}
