import { alarmText } from '#core/words/alarm-text'
import type { Names } from '#core/words/names'
import { noticeText } from '#core/words/notice-text'
import type { Person } from '#core/words/person'
import type { PushCatalogue } from '#core/words/push-catalogue'
import { wordsOf } from '#core/words/words-of'
import type { AlarmMessage, NoticeMessage } from '#core/wire/live'
import type { PushMessage } from './push-letter.ts'

/** For whom a phone is worded: its person, what pots and stages are called, what its owner calls it. */
export interface PushReader {
  readonly person: Person
  readonly names: Names
  readonly title: string
}

/** One message, for each phone in its own language, unit and zone. */
export type PushFor = (reader: PushReader) => PushMessage

const wordsFor = ({ person }: PushReader): PushCatalogue => wordsOf(person.language).push

/** What a phone shows of an alarm. The sentence begins with the pot's name, so the title says how urgent it is. */
export const alarmPush =
  (message: AlarmMessage): PushFor =>
  (reader) => ({
    kind: 'alarm',
    tag: `alarm-${message.alarmId}`,
    title: message.urgency === 'at-once' ? wordsFor(reader).comeNow : wordsFor(reader).soon,
    body: message.facts === undefined ? message.text : alarmText(message.facts, reader.names, reader.person),
    path: `/#/pots/${encodeURIComponent(message.pot)}`,
    isUrgent: message.urgency === 'at-once',
    id: message.id,
  })

/** Takes the place of an alarm that was pushed: it is answered or over. */
export const hushPush =
  (message: AlarmMessage): PushFor =>
  (reader) => ({
    ...alarmPush(message)(reader),
    kind: 'hush',
    title: hushTitle(message, wordsFor(reader)),
    isUrgent: false,
  })

function hushTitle({ state, acknowledgedBy }: AlarmMessage, words: PushCatalogue): string {
  if (state === 'acknowledged')
    return acknowledgedBy === null ? words.somebodyIsThere : words.isThere(acknowledgedBy)
  return state === 'shelved' ? words.putAside : words.over
}

export const noticePush =
  (message: NoticeMessage): PushFor =>
  (reader) => ({
    kind: 'notice',
    tag: `notice-${message.pot}-${message.notice}`,
    title: wordsFor(reader).notice,
    body: message.facts === undefined ? message.text : noticeText(message.facts, reader.names, reader.person),
    path: `/#/pots/${encodeURIComponent(message.pot)}`,
    isUrgent: false,
    id: message.id,
  })

export const testPush =
  (testId: number): PushFor =>
  (reader) => ({
    kind: 'test',
    tag: 'test',
    title: wordsFor(reader).test,
    body: wordsFor(reader).testTap,
    path: `/?heardTest=${testId}`,
    isUrgent: true,
    id: null,
    device: wordsFor(reader).heardBy(reader.title),
  })
