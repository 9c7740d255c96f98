import { DEFAULT_SETTINGS } from '../../web/state/device-settings.ts'
import { pageState } from '../../web/state/page-state.ts'

/** A page that has just been opened for the first time. */
export const defaultPage = (nowMs: number) =>
  pageState({
    settings: DEFAULT_SETTINGS,
    route: { kind: 'stove' },
    lastId: null,
    nowMs,
    deviceIsDark: false,
    deviceLanguages: [],
  })
