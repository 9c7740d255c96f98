import { symlinkSync } from 'node:fs'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'
import { HandClock } from '../kit/hand-clock.ts'
import { type StudioServer, studioServer } from '../kit/studio-server.ts'
import { tempFolder } from '../kit/temp-folder.ts'

/**
 * The real server with its built page, under a clock that the test moves: a dye day in seconds. A second of that day
 * goes by for each of ours, so that the page hears the watch.
 */
export async function pageStudio(startMs: number): Promise<StudioServer> {
  const folder = tempFolder()
  symlinkSync(join(import.meta.dirname, '../../dist/web'), join(folder, 'web'))
  const server = await studioServer({ folder, clock: new HandClock(startMs) })
  const timer = setInterval(() => server.clock.advance(1000), 1000)
  onTestFinished(() => clearInterval(timer))
  return server
}
