import { type ReadonlySignal, type Signal, computed, signal } from '@preact/signals'
import type { ReadingMessage } from '#core/wire/live'
import type { DeviceSettings } from './device-settings.ts'
import { type Language, languageFor } from './language.ts'
import type { Route } from './route.ts'
import { type StoveState, emptyStove } from './stove-state.ts'

/** Everything on screen follows from these. `nowMs`: the server's clock as this page knows it, Unix ms. */
export interface PageState {
  readonly stove: Signal<StoveState>
  readonly settings: Signal<DeviceSettings>
  /** The device itself is set to dark. */
  readonly deviceIsDark: Signal<boolean>
  /** The page is dark, by the person's choice or the device's. */
  readonly isDark: ReadonlySignal<boolean>
  /** What the browser asks for, the most wanted first. */
  readonly deviceLanguages: Signal<readonly string[]>
  /** The language of the page, by the person's choice or the browser's. */
  readonly language: ReadonlySignal<Language>
  readonly route: Signal<Route>
  readonly nowMs: Signal<number>
  /** The last reading of any probe, as it came. */
  readonly heard: Signal<ReadingMessage | null>
  /** The browser lets this page sound now. */
  readonly soundOn: Signal<boolean>
  /** The bedtime test: the alarm sounds here until the person says that it was heard. */
  readonly testing: Signal<boolean>
  /** The test that sounds; `null`: none came from the server. */
  readonly testId: Signal<number | null>
  /** The server says that nobody has answered for a minute: as loud as this device can. */
  readonly loud: Signal<boolean>
  /** A person is at the pots: the shout about a silent server has stopped; the red frame has not. */
  readonly hushed: Signal<boolean>
  /** The server wants its passphrase before it tells anything. */
  readonly locked: Signal<boolean>
  /** What the studio's prices are in: a code or a sign; `null`: nobody has said. */
  readonly money: Signal<string | null>
  /** What the page could not do last, in one sentence. */
  readonly refusal: Signal<string | null>
}

export function pageState(start: {
  readonly settings: DeviceSettings
  readonly route: Route
  readonly lastId: number | null
  readonly nowMs: number
  readonly deviceIsDark: boolean
  readonly deviceLanguages: readonly string[]
}): PageState {
  const settings = signal(start.settings)
  const deviceIsDark = signal(start.deviceIsDark)
  const deviceLanguages = signal(start.deviceLanguages)
  return {
    stove: signal(emptyStove(start.lastId)),
    settings,
    deviceIsDark,
    isDark: computed(() => {
      const { theme } = settings.value
      return theme === 'as-device' ? deviceIsDark.value : theme === 'dark'
    }),
    deviceLanguages,
    language: computed(() => languageFor(settings.value.language, deviceLanguages.value)),
    route: signal(start.route),
    nowMs: signal(start.nowMs),
    heard: signal(null),
    soundOn: signal(false),
    testing: signal(false),
    testId: signal(null),
    loud: signal(false),
    hushed: signal(false),
    locked: signal(false),
    money: signal(null),
    refusal: signal(null),
  }
}
