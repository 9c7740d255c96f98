import type { ReadonlySignal } from '@preact/signals'
import type { Answer } from '#core/wire/live'
import { eventWord } from '#core/plan/event'
import type { Sound } from '../device/sound.ts'
import type { PageState } from '../state/page-state.ts'
import type { ServerRequests } from '../state/requests.ts'
import type { ServerLink } from '../state/server-link.ts'
import type { Reader } from './words/reader.ts'
import type { PageActs } from './page-context.ts'

/** What a person can do, on top of the line, the requests and the loudspeaker. */
export function pageActs(parts: {
  readonly state: PageState
  readonly reader: ReadonlySignal<Reader>
  readonly link: ServerLink
  readonly requests: ServerRequests
  readonly sound: Sound
}): PageActs {
  const { state, link, requests, sound } = parts
  const words = () => parts.reader.peek().w
  const settings = () => state.settings.peek()
  /** Some may have been answered elsewhere meanwhile: only when none could be is there something to say. */
  async function each(ids: readonly number[], ask: (id: number) => Promise<Answer>): Promise<void> {
    const answers = await Promise.all(ids.map(ask))
    const refused = answers.flatMap((a) => (a.ok ? [] : [a.why]))
    if (refused.length === answers.length)
      state.refusal.value = refused[0] === undefined ? null : words().said(refused[0])
  }
  return {
    acknowledge: (ids) => each(ids, (id) => link.acknowledge(id, settings().who)),
    shelve: (ids, minutes) => each(ids, (id) => link.shelve(id, minutes)),
    async note({ potId, batchId }, event, agoMin) {
      const { who } = settings()
      const at = batchId === null ? `pots/${encodeURIComponent(potId)}` : `batches/${batchId}`
      const found = await requests.ask<{ readonly id: number }>('POST', `/api/${at}/events`, {
        event: eventWord(event),
        ...(agoMin > 0 ? { atMs: Math.round(state.nowMs.peek() - agoMin * 60_000) } : {}),
        ...(who === '' ? {} : { who }),
      })
      if (!found.ok) state.refusal.value = found.why
      return found.ok ? found.value : null
    },
    changeSettings: (change) => void (state.settings.value = { ...settings(), ...change }),
    async switchSound(on) {
      state.settings.value = { ...settings(), soundWanted: on }
      if (on) await sound.switchOn()
      else sound.switchOff()
    },
    async startTest() {
      state.settings.value = { ...settings(), soundWanted: true }
      await sound.switchOn()
      state.testing.value = true
      const started = await requests.ask('POST', '/api/test-alarms', {})
      if (!started.ok) state.refusal.value = started.why
    },
    heardTest() {
      const testId = state.testId.peek()
      state.testing.value = false
      state.testId.value = null
      if (testId !== null) link.heardTest(testId, deviceName(settings().who || words().tell.somePage))
    },
    tryRhythm: (rhythm) => sound.tryOut(rhythm, settings().loudness01),
  }
}

/** Tells a phone from a tablet on the list of those who heard the test. */
const deviceName = (who: string): string => `${who}, ${innerWidth} × ${innerHeight}`
