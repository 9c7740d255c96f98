/** A pot on its burner. All but `litres` and `burner.dialMax` may be unknown. */
export interface Vessel {
  readonly title?: string
  /** Water in it, litres. */
  readonly litres: number
  readonly diameterCm?: number
  readonly emptyKg?: number
  readonly material?: string
  /** The air around it, °C. */
  readonly surroundingsC?: number
  /** Height above the sea, metres: it sets the boiling point. */
  readonly altitudeM?: number
  readonly burner: Burner
}

export interface Burner {
  readonly kind?: BurnerKind
  /** The dial runs from 0 (off) to this. */
  readonly dialMax: number
  /** Nameplate power, watts. */
  readonly ratedW?: number
}

export const BURNER_KINDS = ['coil', 'plate', 'gas', 'induction'] as const
export type BurnerKind = (typeof BURNER_KINDS)[number]
