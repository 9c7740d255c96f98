import { fitCooling } from '#core/bath/cooling'
import { reachesC } from '#core/bath/cooling-arrival'
import { evening } from '../kit/stove-evening.ts'
import { type LabPot, labStart } from '../kit/stove-lab.ts'
import { inside, type Note } from './heat-rich.ts'

/** The hour of 40 °C, foretold one hour into a lab pot's cool-down; the room told up to 2 °C wrong. */
export function judgeCooling(pot: LabPot, lid: 'on' | 'off', note: Note): void {
  const day = evening(pot, [{ dial: 0, lid, minutes: 60 * 24, downToC: 38 }], labStart(pot, 82))
  const reached = day.truth.find((p) => p.tempC <= 40)
  if (reached === undefined) return
  const nowMs = 3_600_000
  const points = day.trace.readings.filter((p) => p.atMs <= nowMs)
  const surroundingsC = pot.roomC + pot.random.between(-2, 2)
  const t0 = cpuMs()
  const fit = fitCooling(points, { vessel: pot.vessel, lid, surroundingsC, surroundingsSpreadC: 1.2 })
  const arrival = fit === null ? null : reachesC(fit, 40)
  note('one cooling fit and its arrival, ms of processor', cpuMs() - t0)
  if (arrival === null || reached.atMs < nowMs + 1_200_000) return
  note(
    `cool-down, lid ${lid}: remaining time error one hour in, %`,
    100 * Math.abs((arrival.atMs - nowMs) / (reached.atMs - nowMs) - 1),
  )
  note(
    `cool-down, lid ${lid}: remaining time, signed %`,
    100 * ((arrival.atMs - nowMs) / (reached.atMs - nowMs) - 1),
  )
  note(
    `cool-down, lid ${lid}: range holds the truth`,
    inside(arrival.early90Ms, reached.atMs, arrival.late90Ms),
  )
}

/** Processor time of this process, ms: others on the machine don't count. */
export function cpuMs(): number {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1000
}
