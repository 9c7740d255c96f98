import type { Cancel, Clock } from '#core/measure/clock'
import { isSettledWithin } from '#core/measure/settled-within'
import { ALIVE_TOPIC, LEVEL_TOPIC, alarmTopic, levelTopic } from '#core/wire/lamp-topics'
import type { AlarmMessage } from '#core/wire/live'
import { type LampLevel, type LampState, QUIET, lampState } from './lamp-state.ts'

/** The little of a broker that a lamp needs. Everything is published retained and with QoS 1. */
export interface LampBroker {
  readonly isConnected: boolean
  publish(topic: string, payload: string): void
  /** Calls back at every connect, the first one too. */
  onConnect(fn: () => void): void
  /** Ends once the broker has taken what was published; one that hangs never does. */
  end(): Promise<void>
  /** Lets go at once. */
  cut(): void
}

/** A device that has heard no `1` for three of these knows that the watch stands still. */
const BEAT_MS = 10_000
/** How long a lamp shows a test. */
const TEST_MS = 10_000
const TEST_LEVEL: LampLevel = 3
/** What the broker may take for the last word, ms. */
const LAST_WORD_MS = 1000

/**
 * Keeps retained topics in step with the alarms: `holdfast/<pot>/alarm` (JSON), `holdfast/<pot>/level` and
 * `holdfast/level` (a digit), `holdfast/alive`. While the broker is away nothing queues up: what counts is
 * how it stands when it is back.
 */
export class Lamp {
  readonly #clock: Clock
  readonly #broker: LampBroker
  readonly #alarms = new Map<number, AlarmMessage>()
  readonly #loud = new Set<number>()
  /** Last payload of each topic, so that a change is told once. */
  readonly #told = new Map<string, string>()
  #lastBeatMs = Number.NEGATIVE_INFINITY
  #endTest: Cancel | null = null

  constructor(clock: Clock, broker: LampBroker) {
    this.#clock = clock
    this.#broker = broker
    this.#tellWorst()
    broker.onConnect(() => this.#tellAgain())
  }

  get isConnected(): boolean {
    return this.#broker.isConnected
  }

  /** Pots that are there: each has a topic from the start, also when nothing ever happens to it. */
  know(pots: readonly string[]): void {
    for (const pot of pots) if (!this.#told.has(alarmTopic(pot))) this.#tell(pot, QUIET)
  }

  /** The newest that is known of an alarm. */
  show(message: AlarmMessage): void {
    if (message.state === 'normal') this.#alarms.delete(message.alarmId)
    else this.#alarms.set(message.alarmId, message)
    if (message.state !== 'unacknowledged') this.#loud.delete(message.alarmId)
    this.#refresh(message.pot)
  }

  /** Nobody has answered this alarm. */
  makeLoud(alarmId: number): void {
    const message = this.#alarms.get(alarmId)
    if (message === undefined || message.state !== 'unacknowledged') return
    this.#loud.add(alarmId)
    this.#refresh(message.pot)
  }

  /** Called by the loop of the watch alone, each time round: a loop that stands still stops the beat. */
  beat(): void {
    const nowMs = this.#clock.nowMs()
    if (!this.#broker.isConnected || nowMs - this.#lastBeatMs < BEAT_MS) return
    this.#lastBeatMs = nowMs
    this.#broker.publish(ALIVE_TOPIC, '1')
  }

  /** Shows level 3 on the studio's lamp for ten seconds, unless that has more to say. */
  test(): void {
    this.#endTest?.()
    this.#publish(LEVEL_TOPIC, String(TEST_LEVEL))
    this.#endTest = this.#clock.after(TEST_MS, () => {
      this.#endTest = null
      this.#tellWorst()
    })
  }

  #refresh(pot: string): void {
    const ofPot = [...this.#alarms.values()].filter((message) => message.pot === pot)
    this.#tell(pot, lampState(ofPot, this.#loud))
    this.#tellWorst()
  }

  #tell(pot: string, state: LampState): void {
    this.#publish(alarmTopic(pot), JSON.stringify(state))
    this.#publish(levelTopic(pot), String(state.level))
  }

  /** A test gives way to a real alarm that shows as much or more. */
  #tellWorst(): void {
    const { level } = lampState([...this.#alarms.values()], this.#loud)
    if (this.#endTest === null || level >= TEST_LEVEL) this.#publish(LEVEL_TOPIC, String(level))
  }

  #publish(topic: string, payload: string): void {
    if (this.#told.get(topic) === payload) return
    this.#told.set(topic, payload)
    if (this.#broker.isConnected) this.#broker.publish(topic, payload)
  }

  #tellAgain(): void {
    for (const [topic, payload] of this.#told) this.#broker.publish(topic, payload)
    this.#lastBeatMs = Number.NEGATIVE_INFINITY
  }

  /** Says that the watch ends, then lets go of the broker. */
  async stop(): Promise<void> {
    this.#endTest?.()
    this.#endTest = null
    if (this.#broker.isConnected) this.#broker.publish(ALIVE_TOPIC, '0')
    if (!(await isSettledWithin(this.#clock, this.#broker.end(), LAST_WORD_MS))) this.#broker.cut()
  }
}
