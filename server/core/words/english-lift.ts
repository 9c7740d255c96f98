import type { LiftCatalogue, LiftParts } from './lift-catalogue.ts'

const within = ({ range }: LiftParts): string => (range === null ? '' : ` (${range})`)

/** English. Under which temperature, when, and what that means for the alarm clock. */
export const ENGLISH_LIFT: LiftCatalogue = {
  reached: (under) => `Under ${under} now: it can be lifted.`,
  before: (p) => `Under ${p.under} at ${p.at}${within(p)}: before your ${p.wake}.`,
  perhaps: (p) => `Under ${p.under} at about ${p.at}${within(p)}: perhaps not before your ${p.wake}.`,
  notBefore: (p) =>
    p.at === null
      ? `Not under ${p.under} before your ${p.wake}.`
      : `Not under ${p.under} before your ${p.wake}: at ${p.at}${within(p)}.`,
  otherLid: (otherLid, at, isBefore) =>
    `With the lid ${otherLid} from now on: at about ${at}, ${isBefore ? '' : 'not '}before it rings.`,
}
