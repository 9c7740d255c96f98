import type { StockLot } from '#core/batch/stock'

/** A lot as `GET /api/stock` answers it, with what is left of it. */
export interface LotOnShelf extends StockLot {
  readonly leftG: number
}
