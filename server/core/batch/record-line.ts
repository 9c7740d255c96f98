import type { Lab } from './colour.ts'
import type { GreyGrade } from './grey-grades.ts'

/** What the goods are. Weights in grams. */
export interface Goods {
  readonly what?: string
  readonly fibre?: string
  readonly source?: string
  readonly dryWeightG?: number
  readonly wetWeightG?: number
  readonly condition?: string
  readonly pieces?: number
  readonly owner?: string
  readonly lot?: string
}

export interface Water {
  readonly source?: string
  /** mg/L as CaCO₃. */
  readonly hardnessMgL?: number
  readonly ph?: number
  readonly litres?: number
}

/** Preparation done before, by reference: `mordanted lot of 3 March`, or the batch in which it was done. */
export interface Preparation {
  readonly what: string
  readonly batchId?: number
  readonly lot?: string
  readonly doneMs?: number
}

/** A weighing of one additive of a stage. `plannedG`: what was to be weighed then; `lotId`: of the stock. */
export interface Weighing {
  readonly stageId: string
  readonly additive: string
  readonly plannedG?: number
  readonly weighedG: number
  readonly lotId?: number
  readonly lot?: string
}

/** The dye bath itself: form and extraction, and which use of it this is (2: second bath). */
export interface DyeBath {
  readonly form?: string
  readonly extraction?: string
  readonly use?: number
  readonly ofBatchId?: number
}

export interface Equipment {
  readonly burner?: string
  readonly lid?: string
  readonly probePlace?: string
}

export interface PhReading {
  readonly ph: number
  readonly stageId?: string
  readonly when?: 'start' | 'after-dye' | 'end'
  readonly by?: 'strip' | 'meter'
  /** Temperature of the sample, °C: meters read differently hot. */
  readonly sampleC?: number
}

/** A hand check with a second thermometer: evidence beside the trace. */
export interface SpotCheck {
  readonly stageId?: string
  readonly place: 'top' | 'middle' | 'bottom'
  readonly tempC: number
}

export interface Photo {
  readonly fileId: string
  readonly of: 'bath' | 'wet' | 'dry' | 'other'
  readonly caption?: string
}

/** How it came out, judged dry. Scores 1 (poor) to 5 (good). */
export interface Result {
  readonly words?: string
  readonly referenceBatchId?: number
  readonly match?: 'same' | 'better' | 'lighter' | 'darker' | 'duller' | 'redder' | 'yellower' | 'bluer'
  readonly matchScore?: number
  readonly lab?: Lab
  readonly labFrom?: 'meter' | 'photo'
  readonly evenness?: number
  readonly handle?: number
}

/** `grade`: a grey-scale grade for wash and rub, a step 1–8 of the blue wools for light. */
export interface Fastness {
  readonly test: 'wash' | 'rub' | 'light'
  readonly grade: GreyGrade | '6' | '7' | '8'
  readonly where: 'home' | 'lab'
  readonly note?: string
}

export interface CostNote {
  readonly goodsCost?: number
  readonly energyKWh?: number
  readonly pricePerKWh?: number
  readonly handsOnMin?: number
  readonly hourlyWage?: number
  readonly currency?: string
}

export interface Note {
  readonly text: string
  readonly stageId?: string
}

/** Every sort of line and its body. */
export interface RecordBodies {
  readonly goods: Goods
  readonly water: Water
  readonly preparation: Preparation
  readonly weighing: Weighing
  readonly 'dye-bath': DyeBath
  readonly equipment: Equipment
  readonly ph: PhReading
  readonly check: SpotCheck
  readonly photo: Photo
  readonly result: Result
  readonly fastness: Fastness
  readonly cost: CostNote
  readonly note: Note
  /** Takes back the line that it replaces: the undo of wet hands. */
  readonly withdrawn: Readonly<Record<string, never>>
}
export type RecordKind = keyof RecordBodies

/**
 * A line of a batch's record. Lines are added and never changed: a correction is a later line that `replaces` an
 * earlier one. `atMs`: when it was so; `notedMs`: when it was written down; both Unix ms UTC.
 */
export type RecordLine = {
  readonly [K in RecordKind]: {
    readonly id: number
    readonly atMs: number
    readonly notedMs: number
    readonly who: string | null
    readonly replaces: number | null
    readonly kind: K
    readonly body: RecordBodies[K]
  }
}[RecordKind]

export type LineOf<K extends RecordKind> = Extract<RecordLine, { readonly kind: K }>
