import type { PageState } from '../../state/page-state.ts'
import { catalogueFor } from './catalogue-for.ts'
import type { Catalogue } from './catalogue.ts'
import { type Format, formatFor } from './format.ts'

/** The words and numbers for one person. */
export interface Reader {
  readonly w: Catalogue
  readonly f: Format
}

/** For the person at this device, as they have it set now. */
export function readerOf(state: Pick<PageState, 'settings' | 'language'>): Reader {
  const language = state.language.value
  return { w: catalogueFor(language), f: formatFor(state.settings.value, undefined, language) }
}
