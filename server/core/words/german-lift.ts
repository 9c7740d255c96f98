import type { LiftCatalogue, LiftParts } from './lift-catalogue.ts'

const within = ({ range }: LiftParts): string => (range === null ? '' : ` (${range})`)

/** German. The same facts in the same order as in English. */
export const GERMAN_LIFT: LiftCatalogue = {
  reached: (under) => `Jetzt unter ${under}: das Färbegut kann heraus.`,
  before: (p) => `Unter ${p.under} um ${p.at}${within(p)}: vor dem Wecker um ${p.wake}.`,
  perhaps: (p) => `Unter ${p.under} gegen ${p.at}${within(p)}: vielleicht nicht vor dem Wecker um ${p.wake}.`,
  notBefore: (p) =>
    p.at === null
      ? `Nicht unter ${p.under} vor dem Wecker um ${p.wake}.`
      : `Nicht unter ${p.under} vor dem Wecker um ${p.wake}: um ${p.at}${within(p)}.`,
  otherLid: (otherLid, at, isBefore) =>
    `${otherLid === 'off' ? 'Ohne' : 'Mit'} Deckel ab jetzt: gegen ${at}, ${isBefore ? '' : 'nicht '}bevor er läutet.`,
}
