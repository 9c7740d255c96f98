import type { PushCatalogue } from './push-catalogue.ts'

/** English. */
export const ENGLISH_PUSH: PushCatalogue = {
  comeNow: 'Come now',
  soon: 'Soon',
  notice: 'Notice',
  somebodyIsThere: 'Somebody is there',
  isThere: (who) => `${who} is there`,
  putAside: 'Put aside for a while',
  over: 'Over',
  test: 'Test alarm',
  testTap: 'Tap here to say that you heard it.',
  heardBy: (title) => `${title}, by push`,
}
