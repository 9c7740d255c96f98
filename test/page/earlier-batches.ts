import { expect } from 'vitest'
import type { StudioServer } from '../kit/studio-server.ts'

export const bathPlan = (title: string, fibre: string, dye: string, percentWof: number, chalk: number) => ({
  title,
  fibre,
  stages: [
    {
      id: 'dye',
      title: 'Dye bath',
      kind: 'hold',
      windowC: [64, 81],
      ceilingC: 82,
      holdMin: 20,
      liquorRatio: 25,
      additives: [
        { name: dye, percentWof },
        { name: 'chalk', percentWof: chalk },
      ],
    },
    { id: 'cool', title: 'Cool in the bath', kind: 'cool', coolToC: 30 },
  ],
})

/** A batch that ran elsewhere: its trace as a file, a reading a minute, and the lines of its record. */
export async function ranBatch(
  server: StudioServer,
  title: string,
  ask: {
    readonly planId: number
    readonly dryWeightG: number
    readonly startMs: number
    readonly tempsC: readonly number[]
    /** The minute in which the heat goes off and the goods stay; left out: they are lifted at the end. */
    readonly coolsAtMin?: number
    readonly entries: readonly (readonly [kind: string, body: object])[]
  },
): Promise<number> {
  const { planId, dryWeightG, startMs, tempsC, coolsAtMin, entries } = ask
  const made = await server.ask('POST', '/api/batches', { title, planId, dryWeightG })
  const batchId = made.body.id as number
  const rows = tempsC.map((tempC, min) => {
    const last = min === tempsC.length - 1 ? 'goods-out end' : ''
    const event = min === 0 ? 'stage:dye goods-in' : min === coolsAtMin ? 'stage:cool' : last
    return `${new Date(startMs + min * 60_000).toISOString()},${tempC},${event}`
  })
  const csv = ['time,temp_c,event', ...rows].join('\r\n')
  expect((await server.ask('POST', '/api/trace-import', { batchId, csv })).status).toBe(201)
  for (const [kind, body] of entries) {
    const path = `/api/batches/${batchId}/entries`
    expect((await server.ask('POST', path, { kind, body, atMs: startMs, who: 'Ines' })).status).toBe(201)
  }
  return batchId
}

export const upTo = (fromC: number, toC: number, heatMin: number, wholeMin: number) =>
  Array.from({ length: wholeMin + 1 }, (_, min) =>
    Number((min < heatMin ? fromC + ((toC - fromC) * min) / heatMin : toC + (min % 3) / 10).toFixed(1)),
  )

/** By itself in a room at 18 °C, with a time constant of three hours: a made-up pot. */
export const coolingDown = (fromC: number, minutes: number) =>
  Array.from({ length: minutes }, (_, min) => Number((18 + (fromC - 18) * Math.exp(-min / 180)).toFixed(1)))

export async function planOf(server: StudioServer, plan: object): Promise<number> {
  return (await server.ask('POST', '/api/plans', plan)).body.id as number
}

export const weighing = (additive: string, weighedG: number, lot?: string) =>
  ['weighing', { stageId: 'dye', additive, weighedG, ...(lot === undefined ? {} : { lot }) }] as const

/** The March lot of the trade's own story: 1000 g, madder 40 % of lot R-11, rain water, chalk 15 g. */
export async function marchLot(server: StudioServer): Promise<number> {
  const planId = await planOf(server, bathPlan('Brick rose', 'wool', 'madder root, ground', 40, 1.5))
  return ranBatch(server, 'Marl, brick rose', {
    planId,
    dryWeightG: 1000,
    startMs: Date.UTC(2026, 2, 12, 9),
    tempsC: upTo(30, 68, 40, 90),
    entries: [
      weighing('madder root, ground', 400, 'R-11'),
      weighing('chalk', 15),
      ['water', { source: 'rain', ph: 6.5, hardnessMgL: 20 }],
      ['result', { words: 'brick rose', lab: { lightness: 47.2, a: 33.1, b: 22.4 }, labFrom: 'meter' }],
    ],
  })
}
