import type { PushCatalogue } from './push-catalogue.ts'

/** German. */
export const GERMAN_PUSH: PushCatalogue = {
  comeNow: 'Sofort kommen',
  soon: 'Bald',
  notice: 'Nachricht',
  somebodyIsThere: 'Jemand ist da',
  isThere: (who) => `${who} ist da`,
  putAside: 'Hat eine Weile Ruhe',
  over: 'Vorbei',
  test: 'Probealarm',
  testTap: 'Tipp hier, wenn du ihn gehört hast.',
  heardBy: (title) => `${title}, über Push`,
}
