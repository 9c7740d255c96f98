import { effect } from '@preact/signals'
import type { AlarmMessage } from '#core/wire/live'
import { render } from 'preact'
import { fetchOnce } from './device/early-answers.ts'
import { notify } from './device/notify.ts'
import { markPage, showDark } from './device/page-mark.ts'
import { openSound } from './device/sound.ts'
import { deviceMemory } from './device/storage.ts'
import { LANGUAGE_TAGS } from './state/language.ts'
import { readSettings } from './state/device-settings.ts'
import { pageState } from './state/page-state.ts'
import { serverRequests } from './state/requests.ts'
import { routeAt } from './state/route.ts'
import { openServerLink } from './state/server-link.ts'
import { soundingNow } from './state/sounding-now.ts'
import { type StoveMessage, stepStove } from './state/stove-state.ts'
import { traceStore } from './state/trace-store.ts'
import { pageActs } from './view/page-acts.ts'
import { loadChart } from './view/chart/load-chart.ts'
import { PageContext } from './view/page-context.ts'
import { App } from './view/shell/app.tsx'
import { readerOf } from './view/words/reader.ts'
import { alarmTold } from './view/words/told-text.ts'
import { tabOf } from './view/shell/tab-of.ts'

const memory = deviceMemory()
const storedId = Number(memory.read('lastId') ?? 'x')
const deviceDark = matchMedia('(prefers-color-scheme: dark)')
const state = pageState({
  settings: readSettings(memory.read('settings')),
  route: routeAt(location),
  lastId: Number.isSafeInteger(storedId) ? storedId : null,
  nowMs: Date.now(),
  deviceIsDark: deviceDark.matches,
  deviceLanguages: navigator.languages,
})
const reader = readerOf(state)
const requests = serverRequests(
  fetchOnce,
  () => (state.locked.value = true),
  (sentence) => reader.peek().w.said(sentence),
)
const traces = traceStore(requests, () => state.nowMs.peek())
const sound = openSound((on) => (state.soundOn.value = on))
const watchdog = new Worker(new URL('./state/watchdog-worker.ts', import.meta.url), { type: 'module' })

function take(message: StoveMessage): void {
  const before = state.stove.peek()
  state.stove.value = stepStove(before, message)
  switch (message.kind) {
    case 'stove':
      watchdog.postMessage('pulse', [])
      if (before.pots !== null) traces.refresh()
      return
    case 'pulse':
      return watchdog.postMessage('pulse', [])
    case 'reading':
      state.heard.value = message.reading
      return traces.add(message.reading)
    case 'alarm':
      if (CALLS.has(message.alarm.change)) tellAside(message.alarm)
      return link.seen(message.alarm.id, state.soundOn.peek())
    case 'notice':
      return link.seen(message.notice.id, state.soundOn.peek())
    default:
      return
  }
}

/** When a new window has drawn its page and has time, ms. */
const CHART_AFTER_MS = 2_000

async function askStudio(): Promise<void> {
  const asked = await requests.ask<{ readonly money: string | null }>('GET', '/api/studio')
  if (asked.ok) state.money.value = asked.value.money
}

/** Changes that want a person; the others only tell how it goes on. */
const CALLS: ReadonlySet<AlarmMessage['change']> = new Set(['raised', 'worsened', 'reminded'])

/** For when nobody looks at the page; in the words of this person. */
function tellAside(alarm: AlarmMessage): void {
  const pots = state.stove.peek().pots ?? []
  const title = pots.find((pot) => pot.potId === alarm.pot)?.title ?? alarm.pot
  notify(title, alarmTold(alarm, pots, reader.peek().f), `alarm-${alarm.alarmId}`)
}

const link = openServerLink(() => state.stove.peek().lastId, take, {
  onCall: (call) => (state.loud.value = call.loudness === 'loud'),
  onTest: (test) => {
    state.testId.value = test.testId
    state.testing.value = true
  },
})
watchdog.addEventListener('message', (event: MessageEvent<boolean>) => {
  take({ kind: 'silence', silent: event.data })
})

// Effects run at once, in the message's own event: a hidden page's timers may come a minute late.
effect(() => {
  const sounding = soundingNow(state)
  const isLoud = state.loud.value && sounding.kind === 'loop'
  sound.play(sounding, isLoud ? 1 : state.settings.value.loudness01)
})
effect(() => {
  const isUnanswered = state.stove.value.alarms.some(
    (a) => a.state === 'unacknowledged' && a.urgency === 'at-once',
  )
  if (!isUnanswered) state.loud.value = false
})
effect(() => {
  if (!state.stove.value.silent) state.hushed.value = false
})
effect(() => link.seen(state.stove.peek().lastId ?? 0, state.soundOn.value))
effect(() => memory.write('settings', JSON.stringify(state.settings.value)))
effect(() => {
  document.documentElement.lang = LANGUAGE_TAGS[state.language.value].split('-')[0]!
})
effect(() => showDark(state.isDark.value))
effect(() => {
  const { lastId } = state.stove.value
  if (lastId !== null) memory.write('lastId', String(lastId))
})
effect(() => {
  const { mark, title } = tabOf(state, reader.value)
  markPage(mark, title)
})

// The live line can't say why it was refused; a plain request can, and tells what the studio's prices are in.
void askStudio()
deviceDark.addEventListener('change', () => (state.deviceIsDark.value = deviceDark.matches))
globalThis.addEventListener('languagechange', () => (state.deviceLanguages.value = navigator.languages))
globalThis.addEventListener('hashchange', () => (state.route.value = routeAt(location)))
setInterval(() => (state.nowMs.value = Date.now() + state.stove.peek().aheadMs), 500)
// A browser lets a page sound only after a tap: the first one anywhere is enough when sound was wanted before.
globalThis.addEventListener('pointerdown', () => {
  if (state.settings.peek().soundWanted && !state.soundOn.peek()) void sound.switchOn()
})

render(
  <PageContext.Provider
    value={{ state, reader, traces, requests, acts: pageActs({ state, reader, link, requests, sound }) }}
  >
    <App />
  </PageContext.Provider>,
  document.getElementById('app')!,
)

// Pages without a chart don't wait for the library; the next page may draw one, perhaps with no server there any more.
setTimeout(() => void loadChart(), CHART_AFTER_MS)
