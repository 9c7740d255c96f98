import type { NoticeName } from '../plan/alarm-names.ts'
import type { MorningAlarmParts, MorningCatalogue } from './morning-catalogue.ts'

const TO_DO: Readonly<Partial<Record<NoticeName, string>>> = {
  'out-by-due': 'the goods were due out',
}

function alarmWords(p: MorningAlarmParts): string {
  const often = p.times === 1 ? '' : ` ${p.times} times`
  const span = p.over === null ? `since ${p.since}, and still` : `from ${p.since} to ${p.over}`
  const peak =
    p.peak === null ? '' : `, at the worst ${p.peak}${p.limit === null ? '' : ` (limit ${p.limit})`}`
  return `${p.pot}: ${p.name}${often} ${span}${peak}.${p.isAcknowledged ? '' : ' Nobody has looked at it.'}`
}

/** English. The pot first, then what the night did to it. */
export const ENGLISH_MORNING: MorningCatalogue = {
  alarm: alarmWords,
  holdShort: (pot, stage, required, hold) => `${pot}, ${stage}, planned for ${required}: ${hold}`,
  cooledUnlikePlan: (pot, times, isFaster, reason) =>
    `${pot}: cooled about ${times} times as ${isFaster ? 'fast' : 'slowly'} as this pot should.${reason === null ? '' : ` ${reason}`}`,
  cooled: (pot, coolTo, at, last) => {
    const now = last === null ? '' : ` Now ${last}.`
    return at === null
      ? `${pot}: not yet down to ${coolTo}.${now}`
      : `${pot}: down to ${coolTo} at ${at}.${now}`
  },
  gap: (pot, from, to, lasted) => `${pot}: no readings from ${from} to ${to} (${lasted}).`,
  notice: (pot, notice, at) => `${pot}: ${TO_DO[notice] ?? notice} at ${at}.`,
  probeCheckDue: (probe, isNever) =>
    isNever
      ? `The probe ${probe} has never been compared: check it in ice water and in boiling water, or beside a good thermometer.`
      : `The probe ${probe} has not been compared for half a year: check it in ice water and in boiling water, or beside a good thermometer.`,
}
