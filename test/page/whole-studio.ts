import { expect } from 'vitest'
import type { StudioServer } from '../kit/studio-server.ts'
import { marchLot } from './earlier-batches.ts'
import { pageStudio } from './page-studio.ts'

/** A studio in which every page has something to show, and the addresses of all of them. */
export interface WholeStudio {
  readonly server: StudioServer
  readonly pages: readonly string[]
}

/** A pot with a probe, an earlier batch with its result, one that repeats it and is planned, one that runs, a shelf. */
export async function wholeStudio(): Promise<WholeStudio> {
  const server = await pageStudio(Date.UTC(2026, 3, 23, 9))
  const ask = async (path: string, body: object): Promise<number> => {
    const { status, body: made } = await server.ask('POST', path, body)
    expect(status).toBeLessThan(300)
    return (made.batchId ?? made.id) as number
  }
  const board = (v: number) => [{ n: 'board/heron', u: 'Cel', t: server.clock.nowMs() / 1000, v }]
  for (const tempC of [21, 21.1, 21.2]) {
    server.clock.advance(1000)
    expect((await server.ask('POST', '/api/readings', board(tempC))).status).toBeLessThan(300)
  }
  await ask('/api/pots', { title: 'Heron', vessel: VESSEL, probe: 'heron' })
  const past = await marchLot(server)
  await ask('/api/stock', { material: 'madder root, ground', lot: 'R-14', receivedG: 90, pricePerKg: 41 })
  const planned = await ask(`/api/batches/${past}/repeat`, { title: 'Marl, again', dryWeightG: 650 })
  const running = await ask('/api/batches', { title: 'Marl, Ash', planId: 1, dryWeightG: 400 })
  const began = await server.ask('POST', `/api/batches/${running}/stages/dye/start`, { potId: 'heron' })
  expect(began.status).toBeLessThan(300)
  return { server, pages: pagesOf(past, planned, running) }
}

const VESSEL = { litres: 25, burner: { dialMax: 6, kind: 'coil' } }

const pagesOf = (past: number, planned: number, running: number): readonly string[] => [
  '#/',
  '#/pots/heron',
  '#/pots/heron/burner',
  '#/pots/heron/what-if',
  '#/pots/heron/evening',
  '#/batches',
  '#/find/lot:R-11',
  `#/batches/${past}`,
  `#/batches/${planned}`,
  `#/batches/${running}`,
  `#/weigh/${planned}`,
  `#/record/${past}`,
  `#/record/${running}`,
  `#/repeat/${past}`,
  `#/differs/${planned},${past}`,
  `#/compare/${past},${running}`,
  '#/shades',
  '#/stock',
  '#/class',
  '#/plans',
  '#/plans/1',
  '#/plans/new',
  '#/start/1',
  `#/begin/${planned}`,
  '#/probes',
  '#/night',
  '#/morning',
  '#/settings',
]
