import type { NoticeName } from '../plan/alarm-names.ts'
import type { MorningAlarmParts, MorningCatalogue } from './morning-catalogue.ts'

const TO_DO: Readonly<Partial<Record<NoticeName, string>>> = {
  'out-by-due': 'das Färbegut sollte heraus',
}

function alarmWords(p: MorningAlarmParts): string {
  const often = p.times === 1 ? '' : ` ${p.times}-mal`
  const span = p.over === null ? `seit ${p.since}, noch immer` : `von ${p.since} bis ${p.over}`
  const peak =
    p.peak === null ? '' : `, am schlimmsten ${p.peak}${p.limit === null ? '' : ` (Grenze ${p.limit})`}`
  return `${p.pot}: ${p.name},${often} ${span}${peak}.${p.isAcknowledged ? '' : ' Niemand hat danach gesehen.'}`
}

/** German. The pot first, then what the night did to it. */
export const GERMAN_MORNING: MorningCatalogue = {
  alarm: alarmWords,
  holdShort: (pot, stage, required, hold) => `${pot}, ${stage}, geplant ${required}: ${hold}`,
  cooledUnlikePlan: (pot, times, isFaster, reason) =>
    `${pot}: etwa ${times}-mal so ${isFaster ? 'schnell' : 'langsam'} abgekühlt, wie dieser Topf es sollte.${reason === null ? '' : ` ${reason}`}`,
  cooled: (pot, coolTo, at, last) => {
    const now = last === null ? '' : ` Jetzt ${last}.`
    return at === null
      ? `${pot}: noch nicht auf ${coolTo} herunter.${now}`
      : `${pot}: um ${at} auf ${coolTo} herunter.${now}`
  },
  gap: (pot, from, to, lasted) => `${pot}: keine Messwerte von ${from} bis ${to} (${lasted}).`,
  notice: (pot, notice, at) => `${pot}: ${TO_DO[notice] ?? notice} um ${at}.`,
  probeCheckDue: (probe, isNever) =>
    isNever
      ? `Der Fühler ${probe} wurde noch nie verglichen: prüf ihn in Eiswasser und in kochendem Wasser, oder neben einem guten Thermometer.`
      : `Der Fühler ${probe} wurde seit einem halben Jahr nicht verglichen: prüf ihn in Eiswasser und in kochendem Wasser, oder neben einem guten Thermometer.`,
}
