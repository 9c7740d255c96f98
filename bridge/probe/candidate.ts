import { readNumber } from '#core/measure/read-number'
import type { Candidate } from '#core/wire/bridge-link'

/** Longest text that is shown of what a candidate said. */
const MAX_TEXT = 120

/** Something that may be a probe and has said nothing yet. */
export const silentCandidate = (kind: Candidate['kind'], where: string, about: string): Candidate => ({
  kind,
  where: where.slice(0, 500),
  about: about.slice(0, 500),
  usb: null,
  lastText: null,
  lastNumber: null,
  lastAtMs: null,
  usedBy: null,
  trouble: null,
})

/** What a candidate said, with the first number in it. */
export function said(text: string, atMs: number): Pick<Candidate, 'lastText' | 'lastNumber' | 'lastAtMs'> {
  const shown = text.slice(0, MAX_TEXT)
  const number = /[+-]?\d+(?:[.,]\d+)?(?:[eE][+-]?\d{1,3})?/.exec(shown)?.[0]
  return { lastText: shown, lastNumber: number === undefined ? null : readNumber(number), lastAtMs: atMs }
}
