import { join } from 'node:path'
import { type DeadLetter, keptDeadLetters } from './dead-letters.ts'
import { type Kept, KeptMemory } from './kept.ts'
import { type LetterNote, keptLetterNote } from './letter-book.ts'
import { type Phone, keptPhones } from './phone.ts'
import { type TestReport, keptTests } from './test-alarm.ts'
import { type VapidKeys, keptVapidKeys } from './vapid-keys.ts'

/** What this room keeps besides the record. */
export interface KeptValues {
  readonly vapidKeys: Kept<VapidKeys>
  readonly phones: Kept<readonly Phone[]>
  readonly deadLetters: Kept<readonly DeadLetter[]>
  readonly letters: Kept<LetterNote>
  readonly notices: Kept<LetterNote>
  readonly tests: Kept<readonly TestReport[]>
}

/** Small files of the data folder; their names are told in `docs/push.md` and `docs/webhook.md`. */
export const keptInFolder = (folder: string): KeptValues => ({
  vapidKeys: keptVapidKeys(join(folder, 'push-keys.json')),
  phones: keptPhones(join(folder, 'phones.json')),
  deadLetters: keptDeadLetters(join(folder, 'dead-letters.json')),
  letters: keptLetterNote(join(folder, 'letters.json')),
  notices: keptLetterNote(join(folder, 'notices.json')),
  tests: keptTests(join(folder, 'test-alarms.json')),
})

export const keptInMemory = (): KeptValues => ({
  vapidKeys: new KeptMemory(),
  phones: new KeptMemory(),
  deadLetters: new KeptMemory(),
  letters: new KeptMemory(),
  notices: new KeptMemory(),
  tests: new KeptMemory(),
})
