import { correctionsOf } from '#core/batch/corrections'
import { currentRecord } from '#core/batch/current-record'
import type { RecordLine } from '#core/batch/record-line'
import type { Plan } from '#core/plan/plan'
import type { ReportBatch } from '../../server/report/report-batch.ts'

export const DAY_MS = Date.UTC(2026, 2, 12, 8, 0, 0)
const minMs = (min: number) => DAY_MS + min * 60_000

export const MARL_PLAN: Plan = {
  title: 'Cochineal on Marl',
  fibre: 'wool',
  stages: [
    {
      id: 'mordant',
      title: 'Alum mordant',
      kind: 'hold',
      windowC: [77, 83],
      ceilingC: 87,
      holdMin: 60,
      goods: true,
      liquorRatio: 30,
      additives: [
        { name: 'potassium alum', percentWof: 12 },
        { name: 'cream of tartar', percentWof: 6 },
      ],
    },
    {
      id: 'dye',
      title: 'Dye bath',
      kind: 'hold',
      windowC: [78, 86],
      ceilingC: 90,
      holdMin: 60,
      turnEveryMin: 10,
      goods: true,
      additives: [{ name: 'cochineal, ground', percentWof: 6 }],
    },
    { id: 'cool', title: 'Cool in the bath', kind: 'cool', coolToC: 38, additives: [] },
  ],
}

/** °C at `s` seconds. */
const dipC = (s: number): number => {
  const min = s / 60
  if (min < 50) return 22 + min * 1.16
  if (min < 60) return 80
  if (min < 65) return 75.7 + (min - 60) * 0.46
  if (min >= 91 && min < 98) return 76.2 + Math.abs(min - 94.5) * 0.45
  return 80.5 + Math.sin(min / 4)
}

/** The seven-minute dip: up in 50 min, goods in at 60, 7 min under the window from 91 to 98, a gap at 110. */
function dipTrace(): readonly (readonly [number, number])[] {
  const seconds = Array.from({ length: 126 * 6 }, (_, i) => i * 10)
  return seconds.filter((s) => s < 6600 || s > 6720).map((s) => [DAY_MS + s * 1000, dipC(s)] as const)
}

const LINES: readonly RecordLine[] = [
  {
    id: 1,
    atMs: minMs(-60),
    notedMs: minMs(-60),
    who: 'Ash',
    replaces: null,
    kind: 'goods',
    body: { what: '5 skeins of 100 g', source: 'Marl, 4-ply', lot: 'M-12', dryWeightG: 500 },
  },
  {
    id: 2,
    atMs: minMs(-50),
    notedMs: minMs(-50),
    who: 'Ash',
    replaces: null,
    kind: 'weighing',
    body: { stageId: 'dye', additive: 'cochineal, ground', plannedG: 30, weighedG: 3, lot: 'K-2' },
  },
  {
    id: 3,
    atMs: minMs(-50),
    notedMs: minMs(-20),
    who: 'Bryn',
    replaces: 2,
    kind: 'weighing',
    body: { stageId: 'dye', additive: 'cochineal, ground', plannedG: 30, weighedG: 32, lot: 'K-2' },
  },
  {
    id: 4,
    atMs: minMs(0),
    notedMs: minMs(0),
    who: null,
    replaces: null,
    kind: 'water',
    body: { source: 'rain', hardnessMgL: 20, ph: 6.8 },
  },
  { id: 1, atMs: minMs(70), notedMs: minMs(70), who: 'Ash', replaces: null, kind: 'ph', body: { ph: 6.2 } },
  {
    id: 6,
    atMs: minMs(80),
    notedMs: minMs(80),
    who: 'Ash',
    replaces: null,
    kind: 'check',
    body: { place: 'bottom', tempC: 82.4 },
  },
  {
    id: 7,
    atMs: minMs(4000),
    notedMs: minMs(4000),
    who: 'Ash',
    replaces: null,
    kind: 'result',
    body: {
      words: 'Deep rose, even, a little bluer than the last',
      match: 'bluer',
      matchScore: 4,
      evenness: 5,
      handle: 4,
      lab: { lightness: 38.2, a: 49.1, b: 3.4 },
      labFrom: 'photo',
    },
  },
  {
    id: 8,
    atMs: minMs(4100),
    notedMs: minMs(4100),
    who: 'Ash',
    replaces: null,
    kind: 'fastness',
    body: { test: 'wash', grade: '4', where: 'home' },
  },
]

/** A whole batch of the invented studio, as the server would put it together. */
export function reportBatch(): ReportBatch {
  const trace = dipTrace()
  return {
    batch: {
      id: 41,
      title: 'Cochineal on Marl, five skeins',
      planId: 3,
      planTitle: 'Cochineal on Marl',
      fibre: 'wool',
      dryWeightG: 500,
      madeMs: minMs(-60),
      state: 'ended',
      potId: 'heron',
      bathOf: null,
      lots: [],
      plan: MARL_PLAN,
      stages: [],
      events: [
        event(1, 0, { kind: 'dial', dial: 8 }),
        event(2, 60, { kind: 'goods-in' }),
        event(3, 75, { kind: 'stir' }),
        event(4, 91, { kind: 'top-up' }),
      ],
      alarms: [
        {
          id: 1,
          alarmId: 1,
          alarm: 'below-window',
          urgency: 'soon',
          state: 'normal',
          potId: 'heron',
          batchId: 41,
          stageId: 'dye',
          sinceMs: minMs(91),
          raisedMs: minMs(92.5),
          clearedMs: minMs(99),
          acknowledgedMs: minMs(94),
          acknowledgedBy: 'Ash',
          foundLate: false,
          tempC: 76.4,
          limitC: 78,
          peakC: 76.2,
          text: 'Heron (Dye bath): 76.4 °C, under its window of 78.0 since 9:31.',
        },
      ],
    },
    stages: [
      {
        run: {
          id: 7,
          stageId: 'dye',
          potId: 'heron',
          probe: 'heron',
          startedMs: DAY_MS,
          endedMs: minMs(126),
          outcome: {
            id: 'dye',
            startedMs: DAY_MS,
            endedMs: minMs(126),
            bins: {
              requiredS: 3600,
              inWindowS: 53 * 60,
              aboveWindowS: 0,
              belowWindowS: 7 * 60,
              aboveCeilingS: 0,
              unknownS: 0,
              goodsOutS: 0,
            },
            minC: 76.2,
            maxC: 81.5,
            doneMs: null,
          },
        },
        trace,
      },
    ],
    record: currentRecord(LINES),
    corrections: correctionsOf(LINES),
    potTitles: { heron: 'Heron' },
    bathDryG: 500,
    pictures: {},
    printedMs: minMs(4200),
  }
}

const event = (id: number, min: number, what: ReportBatch['batch']['events'][number]['event']) => ({
  id,
  atMs: minMs(min),
  notedMs: minMs(min),
  potId: 'heron',
  stageId: 'dye',
  event: what,
  who: 'Ash',
})
