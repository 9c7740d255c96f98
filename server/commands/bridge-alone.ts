import { noteOf } from './data-lock.ts'

/** A bath that was left on is cold or dry after this; nobody comes back to a bridge that long alone, ms. */
const LONGEST_MS = 12 * 3_600_000

const LOOK_MS = 500

/**
 * A bridge whose server has died goes on: it keeps readings and calls by itself. Resolves when it should make room:
 * another server is up on this data folder and starts a bridge of its own, the folder or its note of the server is
 * gone, or it has been alone for half a day.
 */
export async function untilNotNeeded(data: string, deadServerPid: number): Promise<void> {
  for (let waitedMs = 0; waitedMs < LONGEST_MS; waitedMs += LOOK_MS) {
    const note = noteOf(data)
    if (note === null || (note.pid !== deadServerPid && note.url !== undefined)) return
    // Looking alone does not keep a bridge running that was told to end.
    await new Promise((resolve) => setTimeout(resolve, LOOK_MS).unref())
  }
}
