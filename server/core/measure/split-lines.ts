/**
 * Cuts a stream of bytes into lines, in bounded memory. The unfinished last line stays inside until its end comes;
 * when the stream breaks it is dropped, so a pulled plug never turns `81.2` into `8`.
 */
export interface SplitState {
  /** The unfinished line so far, one character a byte. */
  readonly open: string
  /** The line is longer than allowed, or may have begun before we listened: dropped up to its end. */
  readonly isDropping: boolean
}

/** No probe's line is longer; a wrong baud rate makes endless ones. Bytes. */
export const MAX_LINE_BYTES = 1024

/** `dropFirst`: the first line may have begun before we listened, and half of it could not be told from a whole. */
export const startSplit = (dropFirst: boolean): SplitState => ({ open: '', isDropping: dropFirst })

/**
 * Lines end with LF, CR LF or CR alone; the end is taken off. `dropped`: how many lines were too long or begun
 * before we listened. Bytes over 127 come out as the characters U+0080…U+00FF: no probe's line has them, so they
 * only mark noise.
 */
export function splitLines(
  state: SplitState,
  bytes: Uint8Array,
): { readonly state: SplitState; readonly lines: readonly string[]; readonly dropped: number } {
  const pieces = latin1(bytes).split(/\r\n|\n|\r/)
  let { open, isDropping } = state
  let dropped = 0
  const lines: string[] = []
  for (const [i, piece] of pieces.entries()) {
    const isEnded = i < pieces.length - 1
    const isTooLong = open.length + piece.length > MAX_LINE_BYTES
    if (isEnded) {
      if (isDropping || isTooLong) dropped++
      else lines.push(open + piece)
    }
    isDropping = !isEnded && (isDropping || isTooLong)
    open = isEnded || isDropping ? '' : open + piece
  }
  return { state: { open, isDropping }, lines: lines.filter((line) => line !== ''), dropped }
}

/** In pieces, because a call takes only so many arguments. */
function latin1(bytes: Uint8Array): string {
  let text = ''
  for (let at = 0; at < bytes.length; at += 4096) {
    text += String.fromCharCode(...bytes.subarray(at, at + 4096))
  }
  return text
}
