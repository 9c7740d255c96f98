import { z } from 'zod'
import type { Clock } from '#core/measure/clock'
import { type Kept, KeptFile } from './kept.ts'
import type { Lamp } from './lamp.ts'
import type { Pages } from './pages.ts'
import { testPush } from './push-words.ts'
import type { WebPush } from './web-push.ts'
import type { Webhook } from './webhook.ts'

/** One test alarm: who was called and who answered. Times Unix ms. */
export interface TestReport {
  readonly testId: number
  readonly startedMs: number
  readonly called: {
    readonly pages: number
    readonly phones: number
    readonly lamp: boolean
    readonly webhook: boolean
  }
  /** In the order they answered; a device answers once. */
  readonly answers: readonly { readonly device: string; readonly atMs: number }[]
}

const testReport = z.object({
  testId: z.number(),
  startedMs: z.number(),
  called: z.object({ pages: z.number(), phones: z.number(), lamp: z.boolean(), webhook: z.boolean() }),
  answers: z.array(z.object({ device: z.string(), atMs: z.number() })),
})

/** Where the tests are kept: a file of the data folder. */
export const keptTests = (path: string): Kept<readonly TestReport[]> =>
  new KeptFile(path, (json) => z.array(testReport).safeParse(json).data ?? null)

/** A year of weekly tests. */
const MOST_KEPT = 53
const MOST_ANSWERS = 100

export interface TestAlarmParts {
  readonly clock: Clock
  readonly pages: Pages
  readonly lamp: Lamp | null
  readonly webhook: Webhook | null
  readonly push: WebPush | null
  readonly kept: Kept<readonly TestReport[]>
}

/** Sounds a test at bedtime by every means and writes down who answered. */
export class TestAlarm {
  readonly #parts: TestAlarmParts
  #tests: readonly TestReport[] = []

  constructor(parts: TestAlarmParts) {
    this.#parts = parts
  }

  /** Reads the tests of earlier runs. */
  async open(): Promise<void> {
    this.#tests = (await this.#parts.kept.load()) ?? []
  }

  /** Newest last. */
  get tests(): readonly TestReport[] {
    return this.#tests
  }

  async start(): Promise<TestReport> {
    const { clock, pages, lamp, webhook, push } = this.#parts
    const testId = (this.#tests.at(-1)?.testId ?? 0) + 1
    const report: TestReport = {
      testId,
      startedMs: clock.nowMs(),
      called: {
        pages: pages.listeners(),
        phones: push?.phones.length ?? 0,
        lamp: lamp?.isConnected ?? false,
        webhook: webhook !== null,
      },
      answers: [],
    }
    this.#tests = [...this.#tests, report].slice(-MOST_KEPT)
    pages.test({ testId, atMs: report.startedMs })
    lamp?.test()
    void webhook?.test()
    void push?.send(testPush(testId))
    await this.#keep()
    return report
  }

  /** A person at this device has heard it; one sentence when that is not possible. */
  async heard(testId: number, device: string): Promise<string | null> {
    const test = this.#tests.find((t) => t.testId === testId)
    if (test === undefined) return `there was no test alarm with the number ${testId}`
    if (test.answers.some((a) => a.device === device)) return null
    if (test.answers.length >= MOST_ANSWERS) return `${MOST_ANSWERS} devices have answered this test already`
    const answers = [...test.answers, { device, atMs: this.#parts.clock.nowMs() }]
    this.#tests = this.#tests.map((t) => (t === test ? { ...test, answers } : t))
    await this.#keep()
    return null
  }

  #keep(): Promise<void> {
    return this.#parts.kept.save(this.#tests)
  }
}
