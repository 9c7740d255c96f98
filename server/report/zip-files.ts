import { PassThrough, Readable } from 'node:stream'
import { finished } from 'node:stream/promises'
import { ZipFile } from 'yazl'
import type { ArchiveFile } from './archive.ts'

/**
 * Files as a ZIP, made while it is read: the next file is asked for when the one before it has gone out, so that a
 * studio of any size takes the memory of one batch. Whoever stops reading stops the making.
 */
export function zipFiles(files: AsyncIterable<ArchiveFile>): Readable {
  const zip = new ZipFile()
  const out = new PassThrough()
  zip.outputStream.pipe(out)
  fill(zip, files, out).catch((error: unknown) => out.destroy(asError(error)))
  return out
}

async function fill(zip: ZipFile, files: AsyncIterable<ArchiveFile>, out: PassThrough): Promise<void> {
  const gone = finished(out).catch(() => {})
  for await (const { name, content } of files) {
    if (out.destroyed) return
    const source = Readable.from([Buffer.from(content)])
    zip.addReadStream(source, name)
    await Promise.race([finished(source), gone])
  }
  zip.end()
}

const asError = (error: unknown): Error => (error instanceof Error ? error : new Error(String(error)))
