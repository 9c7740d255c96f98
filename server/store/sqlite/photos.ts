import { createHash } from 'node:crypto'
import type Database from 'better-sqlite3'
import type { PhotoStore, PhotoType, StoredPhoto } from '../photos.ts'

export class SqlitePhotos implements PhotoStore {
  readonly #db: Database.Database

  constructor(db: Database.Database) {
    this.#db = db
  }

  async add(photo: {
    readonly type: PhotoType
    readonly bytes: Buffer
    readonly addedMs: number
  }): Promise<string> {
    const id = createHash('sha256').update(photo.bytes).digest('hex')
    this.#db
      .prepare(
        'insert into photo (id, type, added_ms, bytes) values (?, ?, ?, ?) on conflict (id) do nothing',
      )
      .run(id, photo.type, photo.addedMs, photo.bytes)
    return id
  }

  async get(id: string): Promise<StoredPhoto | null> {
    const find = this.#db.prepare<[string], StoredPhoto>('select id, type, bytes from photo where id = ?')
    return find.get(id) ?? null
  }
}
