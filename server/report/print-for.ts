/** Whom a report is printed for: every unit, zone and language is handed in, nothing is taken from the machine. */
export interface PrintFor {
  readonly unit: 'C' | 'F'
  readonly weights: 'metric' | 'us'
  /** IANA zone, as in `Europe/Lisbon`. */
  readonly zone: string
  readonly language: 'en' | 'de'
  /** The studio's name, as it stands at the head; may be empty. */
  readonly studio: string
}
