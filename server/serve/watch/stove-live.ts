import type { Pulse, StoveLive } from '#core/wire/live'
import type { Studio } from '../studio.ts'

type Seen = Pick<Studio, 'clock' | 'watching' | 'teller' | 'stove' | 'advice' | 'listeners' | 'trouble'>

/** The whole picture. */
export const stoveLive = (studio: Seen): StoveLive => ({
  atMs: studio.clock.nowMs(),
  pots: studio.watching.pots().map((pot) => studio.advice.on(pot)),
  alarms: studio.teller.open(),
  lastId: studio.teller.lastId,
  listeners: studio.listeners(),
  trouble: studio.trouble(),
})

/** What changes each second. */
export const pulse = (studio: Seen): Pulse => ({
  atMs: studio.clock.nowMs(),
  pots: studio.stove.all.map(({ pot }) => studio.advice.on(studio.watching.numbers(pot.id))),
  listeners: studio.listeners(),
  trouble: studio.trouble(),
})
