import { alarmAct } from '#core/words/alarm-act'
import { alarmText } from '#core/words/alarm-text'
import { wordsOf } from '#core/words/words-of'
import type { Names } from '#core/words/names'
import { noticeText } from '#core/words/notice-text'
import type { AlarmMessage, NoticeMessage, PotLive } from '#core/wire/live'
import type { Format } from './format.ts'

/** The alarm in this person's unit and zone; as the server put it where it sent no facts. */
export const alarmTold = (alarm: AlarmMessage, pots: readonly PotLive[], f: Format): string =>
  alarm.facts === undefined ? alarm.text : alarmText(alarm.facts, namesOf(pots), f.person, potOf(alarm, pots))

const potOf = (alarm: AlarmMessage, pots: readonly PotLive[]): PotLive | null =>
  pots.find(({ potId }) => potId === alarm.pot) ?? null

/** The alarm in a few words, for where there is no room: what is, and what to do. */
export function alarmBrief(
  alarm: AlarmMessage,
  pots: readonly PotLive[],
  f: Format,
): { readonly what: string; readonly act: string } {
  const { alarmNames } = wordsOf(f.person.language)
  return { what: alarmNames[alarm.alarm], act: alarmAct(alarm.alarm, potOf(alarm, pots), f.person) }
}

export const noticeTold = (notice: NoticeMessage, pots: readonly PotLive[], f: Format): string =>
  notice.facts === undefined ? notice.text : noticeText(notice.facts, namesOf(pots), f.person)

export const namesOf = (pots: readonly PotLive[]): Names => ({
  pots: Object.fromEntries(pots.map((pot) => [pot.potId, pot.title])),
  stages: Object.fromEntries(pots.flatMap((pot) => pot.stages.map((stage) => [stage.id, stage.title]))),
  contents: Object.fromEntries(pots.map((pot) => [pot.potId, pot.batch?.title ?? ''])),
})
