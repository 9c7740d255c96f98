import type { Clock } from '#core/measure/clock'
import type { Names } from '#core/words/names'
import type { Person } from '#core/words/person'
import type { Settings } from '#core/wire/settings'
import { KeepAwake } from '../tell/keep-awake.ts'
import { keptInFolder, keptInMemory } from '../tell/kept-values.ts'
import { inhibitorFor } from '../tell/linux-inhibitor.ts'
import { connectBroker } from '../tell/mqtt-broker.ts'
import type { Pages } from '../tell/pages.ts'
import { httpPost } from '../tell/post.ts'
import type { Supervisor } from '../tell/supervisor.ts'
import { TellDesk } from '../tell/tell-desk.ts'
import type { Message, MessageStore } from '../store/messages.ts'
import type { Studio } from './studio.ts'
import type { Teller } from './watch/teller.ts'

/** Letters about what is longer ago are not sent any more, ms. */
const TOLD_MS = 24 * 3_600_000

export interface TellingOptions {
  readonly clock: Clock
  readonly random01: () => number
  /** Folder for what is kept besides the record; `null`: nothing outlives the program. */
  readonly data: string | null
  readonly platform: string
  readonly settings: Settings
  readonly pages: Pages
  readonly teller: Teller
  readonly messages: MessageStore
  readonly onTrouble: (sentence: string) => void
  /** What pots and stages are called now. */
  readonly names: () => Names
  readonly person: () => Person
}

/** The ways to people with the real world behind them. */
export function openTelling(options: TellingOptions): Promise<TellDesk> {
  const { clock, random01, data, pages, teller, onTrouble } = options
  const boot = `${clock.nowMs().toString(36)}-${Math.floor(random01() * 36 ** 4).toString(36)}`
  const parts = {
    clock,
    random01,
    boot,
    pages,
    awake: new KeepAwake(clock, inhibitorFor(options.platform)),
    kept: data === null ? keptInMemory() : keptInFolder(data),
    post: httpPost(clock),
    openBroker: (lamp: NonNullable<Settings['lamp']>) =>
      connectBroker(lamp, `holdfast-server-${boot}`, onTrouble),
    onTrouble,
    person: options.person,
    names: options.names,
    standing: () => ({ alarms: teller.open(), lastId: teller.lastId }),
    told: () => options.messages.since(clock.nowMs() - TOLD_MS),
  }
  return TellDesk.open(parts, options.settings)
}

/** Hands a message on to whoever carries it out of the house. */
export function carry(desk: TellDesk, { kind, message }: Message): void {
  if (kind === 'alarm') desk.ways.telling.alarm(message)
  else desk.ways.telling.notice(message)
}

/** Each time the watch goes round, and only then: calls go on, lamps and the supervisor hear that it does. */
export function tellRound(desk: TellDesk, studio: Studio, supervisor: Supervisor | null): void {
  const pots = studio.stove.all.map(({ pot }) => pot.id)
  const isBurnerOn = pots.some((id) => (studio.watching.numbers(id).dial ?? 0) > 0)
  desk.awake.want(isBurnerOn)
  desk.ways.lamp?.know(pots)
  desk.ways.telling.tick()
  supervisor?.beat()
}
