import type { PotNumbers, Pulse, StoveLive } from '#core/wire/live'
import type { Studio } from '../studio.ts'
import { potLive } from './stove-picture.ts'

type Seen = Pick<
  Studio,
  'clock' | 'watching' | 'teller' | 'stove' | 'advice' | 'wake' | 'evenings' | 'listeners' | 'trouble'
>

/** Numbers with what there is to say about them. */
const dressed = <N extends PotNumbers>({ advice, wake, evenings }: Seen, numbers: N): N =>
  evenings.on(wake.on(advice.on(numbers)))

/** The whole picture. */
export const stoveLive = (studio: Seen): StoveLive => ({
  atMs: studio.clock.nowMs(),
  pots: studio.stove.all.map((on) => dressed(studio, potLive(on, studio.watching.numbers(on.pot.id)))),
  alarms: studio.teller.open(),
  lastId: studio.teller.lastId,
  listeners: studio.listeners(),
  trouble: studio.trouble(),
})

/** What changes each second. */
export const pulse = (studio: Seen): Pulse => ({
  atMs: studio.clock.nowMs(),
  pots: studio.stove.all.map(({ pot }) => dressed(studio, studio.watching.numbers(pot.id))),
  listeners: studio.listeners(),
  trouble: studio.trouble(),
})
