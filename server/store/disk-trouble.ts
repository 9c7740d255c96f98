/**
 * When a write failed because of the disk and not of what was written: one sentence that says what to do.
 * `null` for every other error.
 */
export function diskTrouble(error: unknown): string | null {
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  const full = /^(SQLITE_FULL|ENOSPC|EDQUOT|EFBIG)/.test(code)
  if (full) return 'the disk is full: nothing is being recorded; make room on it'
  if (/^(SQLITE_READONLY|EROFS|EACCES|EPERM)/.test(code))
    return 'the data folder can’t be written to: nothing is being recorded; make it writable again'
  if (/^(SQLITE_IOERR|SQLITE_CANTOPEN|EIO)/.test(code))
    return `the disk refuses writes (${code}): nothing is being recorded; look whether it is full or failing`
  if (code.startsWith('SQLITE_BUSY'))
    return 'another program holds the database: nothing is being recorded; close that program'
  return null
}
