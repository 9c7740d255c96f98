import { type Request, type Router, json, Router as makeRouter } from 'express'
import type { MorningItem, MorningPage } from '#core/watch/morning-page'
import type { BatchRecord, BatchSummary, PlanRecord, PotRecord } from '#core/wire/records'
import { newCorrection } from '#core/wire/api-probes'
import { decodePlan } from '#core/wire/plan-file'
import { heatRoutes } from './page-heat-routes.ts'
import { MADDER_PLAN, madeUpPot, madeUpTempC } from './page-stove.ts'

const MIN_MS = 60_000

/** The HTTP part of the made-up server: enough for every page to have something to show. */
export function pageRoutes(potCount: number): Router {
  const router = makeRouter()
  const plans: PlanRecord[] = [{ id: 1, version: 1, savedMs: Date.now(), plan: MADDER_PLAN }]
  const pots = () => Array.from({ length: potCount }, (_, no) => potRecord(no))
  router.use(json())
  router.get(
    '/studio',
    (_q, a) => void a.json({ studio: null, unit: 'C', version: '0', boilC: 100, money: null }),
  )
  router.get('/pots', (_q, a) => void a.json(pots()))
  heatRoutes(router, (id) => pots().find((pot) => pot.id === id) ?? null)
  router.get('/plans', (_q, a) => void a.json(plans))
  router.get('/plans/:id', (_q, a) => void a.json(plans[0]))
  router.post('/plans', (q, a) => {
    const decoded = decodePlan(q.body)
    if (!decoded.ok) a.status(400).json({ title: 'Not understood', status: 400, detail: decoded.why })
    else {
      const saved = { id: plans.length + 1, version: 1, savedMs: Date.now(), plan: decoded.plan }
      plans.push(saved)
      a.status(201).json(saved)
    }
  })
  router.get('/batches', (_q, a) => void a.json(pots().map((_, no) => batchSummary(no))))
  router.get('/find', (_q, a) => void a.json(pots().map((_, no) => batchSummary(no))))
  router.get('/facets', (_q, a) => void a.json([]))
  router.get('/batches/:id/needs', (_q, a) => void a.json({ shortages: [] }))
  router.get('/batches/:id', (q, a) => void a.json({ ...batchRecord(Number(q.params.id) - 1), entries: [] }))
  router.post('/batches/:id/events', (_q, a) => void a.status(201).json({ ok: true }))
  router.get('/wake', (_q, a) => void a.json({ wakeAt: null, liftC: 40, wakeMs: null }))
  router.get('/probe-settings', (_q, a) => void a.json([]))
  router.get('/probes', (_q, a) => void a.json(pots().map((pot, no) => probeInfo(pot, no))))
  const corrections: object[] = []
  router.get('/probes/:name/corrections', (_q, a) => void a.json(corrections))
  router.post('/probes/:name/corrections', (q, a) => {
    const read = newCorrection.safeParse(q.body)
    if (!read.success) {
      a.status(400).json({ title: 'Not understood', status: 400, detail: read.error.issues[0]?.message })
      return
    }
    const { fromMs, who, ...body } = read.data
    const madeMs = Date.now()
    const made = {
      id: corrections.length + 1,
      probe: q.params.name,
      fromMs: fromMs ?? madeMs,
      madeMs,
      who,
      body,
    }
    corrections.push(made)
    a.status(201).json(made)
  })
  router.get('/morning', (_q, a) => void a.json(madeUpMorning()))
  router.get('/wake', (_q, a) => void a.json({ wakeAt: '06:30', liftC: 40, wakeMs: Date.now() + 1 }))
  router.get('/who-hears', (_q, a) => void a.json(madeUpHearers))
  router.get('/test-alarms', (_q, a) => void a.json([]))
  router.post('/test-alarms', (_q, a) => void a.status(201).json({ testId: 1 }))
  router.get('/push', (_q, a) => void a.json({ publicKey: null, phones: [] }))
  router.post('/find-probe', (_q, a) => void a.json({ ok: true }))
  router.get('/find-probe', (_q, a) => void a.json({ finding: true, candidates: [madeUpCandidate()] }))
  router.get('/trace', (q, a) => {
    const no = Number(query(q, 'probe').replace('probe-', ''))
    const toMs = Math.min(Date.now(), Date.parse(query(q, 'to')))
    const fromMs = Math.max(Date.parse(query(q, 'from')), Date.now() - 240 * MIN_MS)
    a.json({ points: madeUpTrace(no, fromMs, toMs) })
  })
  return router
}

const query = (request: Request, name: string): string => {
  const value = request.query[name]
  return typeof value === 'string' ? value : ''
}

const madeUpBins = {
  requiredS: 3600,
  inWindowS: 3180,
  aboveWindowS: 0,
  belowWindowS: 420,
  aboveCeilingS: 0,
  unknownS: 0,
  goodsOutS: 0,
}

const madeUpMorning = (): Omit<MorningPage, 'items'> & { items: (MorningItem & { text: string })[] } => ({
  fromMs: Date.now() - 840 * MIN_MS,
  toMs: Date.now(),
  isQuiet: false,
  items: [
    {
      kind: 'hold-short',
      potId: 'pot-0',
      batchId: 1,
      stageId: 'dye',
      bins: madeUpBins,
      minC: 76.2,
      maxC: 84,
      windowC: [78, 86],
      text: 'Wren, Alum mordant: 53 of 60 min in the window.',
    },
  ],
})

const madeUpHearers = {
  pages: 1,
  phones: [],
  lamp: 'none',
  webhook: false,
  computer: { kind: 'not-needed' },
}

const madeUpCandidate = () => ({
  kind: 'serial',
  where: '/dev/ttyUSB7',
  about: 'a made-up board',
  usb: null,
  lastText: 'T1=31.4 C',
  lastNumber: 20 + (Date.now() % 60_000) / 6_000,
  lastAtMs: Date.now(),
  usedBy: null,
  trouble: null,
})

function madeUpTrace(no: number, fromMs: number, toMs: number) {
  const points: [number, number][] = []
  const endMs = no % 6 === 5 ? toMs - 247_000 : toMs
  for (let atMs = fromMs; atMs < endMs; atMs += 15_000) {
    const agoMin = (Date.now() - atMs) / MIN_MS
    if (agoMin < 130 || agoMin > 136) points.push([atMs, madeUpTempC(no, agoMin)])
  }
  return points
}

function potRecord(no: number): PotRecord {
  const { potId, title, litres, probe } = madeUpPot(no, 0)
  return { id: potId, title, probe, vessel: { litres: litres!, burner: { dialMax: 10, kind: 'coil' } } }
}

function probeInfo(pot: PotRecord, no: number) {
  const silent = no % 6 === 5
  return {
    name: pot.probe,
    title: pot.probe,
    tempC: madeUpTempC(no, 0),
    atMs: Date.now() - (silent ? 247_000 : 600),
    ageMs: silent ? 247_000 : 600,
    verdict: 'good',
    kind: no % 2 === 0 ? 'serial-lines' : 'mqtt',
    place: no % 2 === 0 ? `/dev/ttyUSB${no}` : `studio/${pot.id}/temperature`,
    state: silent ? 'silent' : 'ok',
    sentence: silent ? 'silent; last heard 4 min ago' : 'sends a reading every second',
    setting: 'page',
    accepted: true,
    potId: pot.id,
    rateCPerMin: 0.1,
    noiseC: 0.06,
    periodMs: 1000,
    battery01: no % 2 === 0 ? null : 0.72,
    lagS: 12,
    correction:
      no === 0
        ? { text: '−0.4 °C', kind: 'offset', offsetC: -0.4, fromMs: Date.parse('2026-10-03T09:00:00Z') }
        : null,
  }
}

function batchSummary(no: number): BatchSummary {
  const pot = madeUpPot(no, 0)
  return {
    id: no + 1,
    title: pot.batch!.title,
    planId: 1,
    planTitle: MADDER_PLAN.title,
    fibre: 'wool',
    dryWeightG: 850,
    madeMs: Date.now() - 300 * MIN_MS,
    state: no === 3 ? 'ended' : 'running',
    potId: pot.potId,
    bathOf: null,
  }
}

function batchRecord(no: number): BatchRecord {
  const nowMs = Date.now()
  const at = (agoMin: number) => nowMs - agoMin * MIN_MS
  const run = (id: number, stageId: string, startMin: number, endMin: number | null) => ({
    id,
    stageId,
    potId: madeUpPot(no, 0).potId,
    probe: `probe-${no}`,
    startedMs: at(startMin),
    endedMs: endMin === null ? null : at(endMin),
  })
  const event = (id: number, agoMin: number, found: BatchRecord['events'][number]['event']) => ({
    id,
    atMs: at(agoMin),
    notedMs: at(agoMin - (id === 3 ? 12 : 0)),
    potId: madeUpPot(no, 0).potId,
    stageId: 'mordant',
    event: found,
    who: id === 2 ? 'Ines' : null,
  })
  return {
    ...batchSummary(no),
    plan: MADDER_PLAN,
    lots: [],
    stages: [
      {
        ...run(1, 'mordant', 230, 110),
        outcome: {
          id: 'mordant',
          startedMs: at(230),
          endedMs: at(110),
          bins: {
            requiredS: 3600,
            inWindowS: 3180,
            belowWindowS: 420,
            aboveWindowS: 0,
            aboveCeilingS: 0,
            unknownS: 0,
            goodsOutS: 0,
          },
          minC: 78.2,
          maxC: 85.6,
          doneMs: null,
        },
      },
      {
        ...run(2, 'dye', 100, null),
        outcome: {
          id: 'dye',
          startedMs: at(100),
          endedMs: at(0),
          bins: {
            requiredS: 5400,
            inWindowS: 4410,
            belowWindowS: 0,
            aboveWindowS: 240,
            aboveCeilingS: 65,
            unknownS: 360,
            goodsOutS: 0,
          },
          minC: 65.1,
          maxC: 77.3,
          doneMs: null,
        },
      },
    ],
    events: [
      event(1, 225, { kind: 'goods-in' }),
      event(2, 215, { kind: 'dial', dial: 7 }),
      event(3, 170, { kind: 'stir' }),
      event(4, 112, { kind: 'goods-out' }),
    ],
    alarms: [
      {
        id: 1,
        alarmId: 1,
        alarm: 'below-window',
        urgency: 'soon',
        state: 'normal',
        potId: madeUpPot(no, 0).potId,
        batchId: no + 1,
        stageId: 'mordant',
        sinceMs: at(150),
        raisedMs: at(148),
        clearedMs: at(141),
        acknowledgedMs: at(146),
        acknowledgedBy: 'Ines',
        foundLate: false,
        tempC: 79,
        limitC: 80,
        peakC: 78.2,
        text: 'Wren: 79.0 °C, under its window of 80 to 86 °C. Is the burner turned up enough?',
        facts: {
          kind: 'alarm',
          alarm: 'below-window',
          change: 'raised',
          atMs: at(148),
          sinceMs: at(150),
          potId: madeUpPot(no, 0).potId,
          stageId: 'mordant',
          urgency: 'soon',
          tempC: 79,
          limitC: 80,
          rateCPerMin: -0.1,
          lastReadingMs: at(148),
          peakC: 78.2,
          expectedMs: null,
          dial: 3,
          potIds: [madeUpPot(no, 0).potId],
          reason: 'burner-off',
        },
      },
    ],
  }
}
