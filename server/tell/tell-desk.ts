import type { Clock } from '#core/measure/clock'
import { ESCALATION_DEFAULTS, type EscalationSettings } from '#core/watch/escalation-call'
import type { Names } from '#core/words/names'
import type { Person } from '#core/words/person'
import type { AlarmMessage } from '#core/wire/live'
import type { LampSettings, PushSettings, WebhookSettings } from '#core/wire/tell-settings'
import type { Message } from '../store/messages.ts'
import type { KeepAwake } from './keep-awake.ts'
import type { KeptValues } from './kept-values.ts'
import { Lamp, type LampBroker } from './lamp.ts'
import { LetterBook } from './letter-book.ts'
import { NoticeCalls } from './notice-calls.ts'
import type { Pages } from './pages.ts'
import type { Post } from './post.ts'
import { Telling } from './telling.ts'
import { TestAlarm } from './test-alarm.ts'
import { openVapidKeys } from './vapid-keys.ts'
import { WebPush } from './web-push.ts'
import { Webhook } from './webhook.ts'

/** The part of the settings that says how alarms leave the house. */
export interface TellSettings {
  readonly lamp?: LampSettings | undefined
  readonly webhook?: WebhookSettings | undefined
  readonly push?: PushSettings | undefined
  readonly escalation?: EscalationSettings | undefined
}

export interface TellDeskParts {
  readonly clock: Clock
  readonly random01: () => number
  /** Unique for this run of the program. */
  readonly boot: string
  readonly pages: Pages
  readonly awake: KeepAwake
  readonly kept: KeptValues
  readonly post: Post
  readonly openBroker: (settings: LampSettings) => LampBroker
  readonly onTrouble: (sentence: string) => void
  /** How the studio reads, and what pots and stages are called now. */
  readonly person: () => Person
  readonly names: () => Names
  /** The alarms that pages show now, and the highest number given out. */
  readonly standing: () => { readonly alarms: readonly AlarmMessage[]; readonly lastId: number }
  /** The messages of the last day, in order. */
  readonly told: () => Promise<readonly Message[]>
}

/** The ways to people that are set up now. */
export interface Ways {
  readonly telling: Telling
  readonly testAlarm: TestAlarm
  readonly push: WebPush | null
  readonly webhook: Webhook | null
  readonly lamp: Lamp | null
}

/** Sets up the ways to people as the settings say, and again when they change. */
export class TellDesk {
  readonly #parts: TellDeskParts
  #appliedJson: string
  #ways: Ways

  private constructor(parts: TellDeskParts, settings: TellSettings, ways: Ways) {
    this.#parts = parts
    this.#appliedJson = JSON.stringify(relevant(settings))
    this.#ways = ways
  }

  static async open(parts: TellDeskParts, settings: TellSettings): Promise<TellDesk> {
    return new TellDesk(parts, settings, await openWays(parts, settings))
  }

  get awake(): KeepAwake {
    return this.#parts.awake
  }

  get ways(): Ways {
    return this.#ways
  }

  /** Takes up what stood when the program ended. */
  resume(): void {
    const { alarms, lastId } = this.#parts.standing()
    this.#ways.telling.resume(alarms, lastId)
  }

  /** Once the watch knows how things stand now: letters that an earlier run did not bring are sent, if still true. */
  takeUpLetters(): void {
    this.#ways.webhook?.takeUp(this.#parts.standing().alarms)
    this.#ways.telling.takeUpNotices()
  }

  /** Settings were read again. The old ways end first: two lamps of one name would push each other out. */
  async apply(settings: TellSettings): Promise<void> {
    const json = JSON.stringify(relevant(settings))
    if (json === this.#appliedJson) return
    this.#appliedJson = json
    await this.#ways.telling.stop()
    this.#ways = await openWays(this.#parts, settings)
    this.resume()
    this.takeUpLetters()
  }

  async close(): Promise<void> {
    this.#parts.awake.stop()
    await this.#ways.telling.stop()
  }
}

const relevant = ({ lamp, webhook, push, escalation }: TellSettings): TellSettings => ({
  lamp,
  webhook,
  push,
  escalation,
})

async function openWays(parts: TellDeskParts, settings: TellSettings): Promise<Ways> {
  const { clock, pages, awake, kept } = parts
  const lamp = settings.lamp === undefined ? null : new Lamp(clock, parts.openBroker(settings.lamp))
  const webhook = settings.webhook === undefined ? null : await openWebhook(parts, settings.webhook)
  const push = settings.push?.enabled === true ? await openPush(parts, settings.push) : null
  const escalation = settings.escalation ?? ESCALATION_DEFAULTS
  const notices = new NoticeCalls(
    push === null ? null : new LetterBook({ kept: kept.notices, onTrouble: parts.onTrouble }),
  )
  await notices.open(await parts.told())
  const telling = new Telling({ clock, settings: escalation, pages, lamp, webhook, push, awake, notices })
  const testAlarm = new TestAlarm({ clock, pages, lamp, webhook, push, kept: kept.tests })
  await testAlarm.open()
  return { telling, testAlarm, push, webhook, lamp }
}

async function openWebhook(parts: TellDeskParts, settings: WebhookSettings): Promise<Webhook> {
  const { clock, random01, post, boot, kept, onTrouble } = parts
  const webhook = new Webhook({
    clock,
    random01,
    post,
    settings,
    boot,
    dead: kept.deadLetters,
    book: new LetterBook({ kept: kept.letters, onTrouble }),
    onTrouble,
  })
  await webhook.open(await parts.told())
  return webhook
}

async function openPush(parts: TellDeskParts, { contact }: PushSettings): Promise<WebPush> {
  const { clock, random01, post, kept, onTrouble, person, names } = parts
  const keys = await openVapidKeys(kept.vapidKeys)
  const push = new WebPush({
    clock,
    random01,
    post,
    keys,
    contact,
    phones: kept.phones,
    person,
    names,
    onTrouble,
  })
  await push.open()
  return push
}
