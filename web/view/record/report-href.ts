import type { PageState } from '../../state/page-state.ts'

/** The address of something to print, in the units, zone and language of this person. */
export function reportHref(
  batchId: number,
  report: 'sheet' | 'tag' | 'lot-record' | 'class-page',
  reader: Pick<PageState, 'settings' | 'language'>,
  more: Readonly<Record<string, string>> = {},
): string {
  return `/api/batches/${batchId}/${report}?${readerQuery(reader, more)}`
}

/** The address of the whole studio as a ZIP. */
export const archiveHref = (reader: Pick<PageState, 'settings' | 'language'>): string =>
  `/api/archive.zip?${readerQuery(reader, {})}`

function readerQuery(
  reader: Pick<PageState, 'settings' | 'language'>,
  more: Readonly<Record<string, string>>,
): URLSearchParams {
  const { unit, weights } = reader.settings.value
  const language = reader.language.value
  return new URLSearchParams({
    unit,
    weights,
    language: language === 'pseudo' ? 'en' : language,
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    ...more,
  })
}
