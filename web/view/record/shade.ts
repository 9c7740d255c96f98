import type { Lab } from '#core/batch/colour'

/** A result's colour as the server answers it. */
export interface Shade {
  readonly batchId: number
  readonly title: string
  readonly fibre: string | null
  readonly lab: Lab
  readonly percentWof: number | null
}
