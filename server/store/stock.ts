import type { StockEvent, StockLot } from '#core/batch/stock'

export interface StockStore {
  addLot(lot: Omit<StockLot, 'id'>): Promise<StockLot>
  /** By material, then lot. */
  lots(): Promise<readonly StockLot[]>
  /** Received, discarded or counted. What was used comes from the weighings of the batches by itself. */
  addEvent(event: StockEvent & { readonly who: string | null; readonly notedMs: number }): Promise<void>
  /** Of one lot, or of all: with what the standing weighings took. By time. */
  events(lotId?: number): Promise<readonly StockEvent[]>
}
