/** How one person reads: the unit, the zone and the language of every sentence made for them. */
export interface Person {
  readonly unit: 'C' | 'F'
  /** An IANA zone: `Europe/Dublin`, `UTC`. */
  readonly zone: string
  /** A BCP 47 tag; where a catalogue lacks it, English is used. */
  readonly language: string
}
