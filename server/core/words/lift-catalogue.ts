/** The parts of a sentence on lifting by the alarm clock, already worded: `40 °C`, `05:10`, `04:30–06:00`. */
export interface LiftParts {
  readonly under: string
  readonly wake: string
  /** `null`: not within a day. */
  readonly at: string | null
  readonly range: string | null
}

/** All sentences on lifting in one language. */
export interface LiftCatalogue {
  reached(under: string): string
  before(p: LiftParts): string
  perhaps(p: LiftParts): string
  notBefore(p: LiftParts): string
  /** With the other lid from now on; `isBefore`: before the alarm clock. */
  otherLid(otherLid: 'on' | 'off', at: string, isBefore: boolean): string
}
