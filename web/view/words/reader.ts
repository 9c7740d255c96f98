import { type ReadonlySignal, computed } from '@preact/signals'
import type { PageState } from '../../state/page-state.ts'
import { catalogueFor } from './catalogue-for.ts'
import type { Catalogue } from './catalogue.ts'
import { type Format, formatFor } from './format.ts'

/** The words and numbers for one person. */
export interface Reader {
  readonly w: Catalogue
  readonly f: Format
}

/** For the person at this device, as they have it set; made anew only when they change that: every component reads it. */
export const readerOf = (state: Pick<PageState, 'settings' | 'language' | 'money'>): ReadonlySignal<Reader> =>
  computed(() => {
    const language = state.language.value
    const own = { ...state.settings.value, money: state.money.value }
    return { w: catalogueFor(language), f: formatFor(own, undefined, language) }
  })
