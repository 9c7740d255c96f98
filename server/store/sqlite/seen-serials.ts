import type Database from 'better-sqlite3'

const CHUNK = 1024

/**
 * Which (probe, boot, seq) were stored: one bit each, 1024 to a row. An index over all readings would be as
 * large as the readings; this is an eighth of a byte to a byte a reading, whether the sender counts for each
 * probe or for all of them together. Lives for one commit; `save` writes what changed.
 */
export class SeenSerials {
  readonly #load: Database.Statement<[number, string, number], { bits: Buffer }>
  readonly #store: Database.Statement<[number, string, number, Buffer]>
  readonly #chunks = new Map<string, Chunk>()
  /** The chunk that each probe had last: as a rule it has the next one, too. */
  readonly #lastOf = new Map<number, Chunk>()

  constructor(db: Database.Database) {
    this.#load = db.prepare('select bits from seen where probe_id = ? and boot = ? and chunk = ?')
    this.#store = db.prepare(
      'insert into seen (probe_id, boot, chunk, bits) values (?, ?, ?, ?) ' +
        'on conflict (probe_id, boot, chunk) do update set bits = excluded.bits',
    )
  }

  /** Marks it; `false` when it was marked before. */
  mark(probeId: number, boot: string, seq: number): boolean {
    const chunk = this.#chunk(probeId, boot, Math.floor(seq / CHUNK))
    const place = seq % CHUNK
    const bit = 1 << (place & 7)
    const byte = chunk.bits[place >> 3]!
    if ((byte & bit) !== 0) return false
    chunk.bits[place >> 3] = byte | bit
    chunk.changed = true
    return true
  }

  /** Writes the changed rows and forgets everything. */
  save(): void {
    for (const c of this.#chunks.values()) if (c.changed) this.#store.run(c.probeId, c.boot, c.nth, c.bits)
    this.forget()
  }

  forget(): void {
    this.#chunks.clear()
    this.#lastOf.clear()
  }

  #chunk(probeId: number, boot: string, nth: number): Chunk {
    const last = this.#lastOf.get(probeId)
    if (last !== undefined && last.nth === nth && last.boot === boot) return last
    const key = `${probeId} ${nth} ${boot}`
    const chunk = this.#chunks.get(key) ?? this.#loaded(probeId, boot, nth)
    this.#chunks.set(key, chunk)
    this.#lastOf.set(probeId, chunk)
    return chunk
  }

  #loaded(probeId: number, boot: string, nth: number): Chunk {
    const bits = this.#load.get(probeId, boot, nth)?.bits ?? Buffer.alloc(CHUNK / 8)
    return { probeId, boot, nth, bits, changed: false }
  }
}

interface Chunk {
  readonly probeId: number
  readonly boot: string
  readonly nth: number
  readonly bits: Buffer
  changed: boolean
}
