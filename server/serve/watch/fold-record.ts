import type { AlarmHappening, Happening } from '#core/watch/happening'
import type { StoveInput } from '#core/watch/stove-input'
import type { StoveWatch } from './stove-watch.ts'

/** Inputs between two pauses: a long day must not hold up the live readings. */
const AT_A_TIME = 200

/** Tells the watch a whole day, with pauses in which everything else goes on. */
export async function foldRecord(
  watch: StoveWatch,
  inputs: readonly StoveInput[],
): Promise<readonly Happening[]> {
  const found: Happening[] = []
  for (let from = 0; from < inputs.length; from += AT_A_TIME) {
    for (const input of inputs.slice(from, from + AT_A_TIME)) found.push(...watch.step(input))
    await new Promise((resolve) => setImmediate(resolve))
  }
  return found
}

/** The alarms that stand at the end of a day: raised and not cleared. */
export function standingAlarms(happenings: readonly Happening[]): readonly AlarmHappening[] {
  const last = new Map<string, AlarmHappening>()
  for (const h of happenings)
    if (h.kind === 'alarm') last.set(JSON.stringify([h.alarm, h.potId, h.stageId]), h)
  return [...last.values()].filter((h) => h.change !== 'cleared')
}
