export const PHOTO_TYPES = ['image/jpeg', 'image/png', 'image/webp'] as const
export type PhotoType = (typeof PHOTO_TYPES)[number]

/** A photo as it was taken. `id`: the SHA-256 of its bytes, so that sending it twice keeps it once. */
export interface StoredPhoto {
  readonly id: string
  readonly type: PhotoType
  readonly bytes: Buffer
}

/** Photos lie with the record, so that one copy of the file holds everything. */
export interface PhotoStore {
  add(photo: { readonly type: PhotoType; readonly bytes: Buffer; readonly addedMs: number }): Promise<string>
  get(id: string): Promise<StoredPhoto | null>
}
