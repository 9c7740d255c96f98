import type Database from 'better-sqlite3'
import type { StockEvent, StockLot } from '#core/batch/stock'
import type { StockStore } from '../stock.ts'

interface LotRow {
  readonly id: number
  readonly material: string
  readonly lot: string
  readonly harvest_year: number | null
  readonly price_per_kg: number | null
}

export class SqliteStock implements StockStore {
  readonly #db: Database.Database

  constructor(db: Database.Database) {
    this.#db = db
  }

  async addLot(lot: Omit<StockLot, 'id'>): Promise<StockLot> {
    const { lastInsertRowid } = this.#db
      .prepare('insert into stock_lot (material, lot, harvest_year, price_per_kg) values (?, ?, ?, ?)')
      .run(lot.material, lot.lot, lot.harvestYear ?? null, lot.pricePerKg ?? null)
    return { ...lot, id: Number(lastInsertRowid) }
  }

  async lots(): Promise<readonly StockLot[]> {
    const rows = this.#db.prepare<[], LotRow>('select * from stock_lot order by material, lot').all()
    return rows.map(toLot)
  }

  async addEvent(
    event: StockEvent & { readonly who: string | null; readonly notedMs: number },
  ): Promise<void> {
    this.#db
      .prepare(
        'insert into stock_event (lot_id, kind, at_ms, noted_ms, grams, who) values (?, ?, ?, ?, ?, ?)',
      )
      .run(event.lotId, event.kind, event.atMs, event.notedMs, event.grams, event.who)
  }

  async events(lotId?: number): Promise<readonly StockEvent[]> {
    const ofLot = lotId === undefined ? 'is not null' : '= ?'
    const params = lotId === undefined ? [] : [lotId, lotId]
    return this.#db
      .prepare<number[], StockEvent>(
        `select kind, lot_id as lotId, at_ms as atMs, grams from stock_event where lot_id ${ofLot}
         union all
         select 'used', json_extract(e.body, '$.lotId'), e.at_ms, json_extract(e.body, '$.weighedG') from entry e
         where e.kind = 'weighing' and json_extract(e.body, '$.lotId') ${ofLot}
           and not exists (select 1 from entry r where r.replaces = e.id and r.id > e.id)
         order by 3`,
      )
      .all(...params)
  }
}

const toLot = (row: LotRow): StockLot => ({
  id: row.id,
  material: row.material,
  lot: row.lot,
  ...(row.harvest_year === null ? {} : { harvestYear: row.harvest_year }),
  ...(row.price_per_kg === null ? {} : { pricePerKg: row.price_per_kg }),
})
