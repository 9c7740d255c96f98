import { expect, onTestFinished, test } from 'vitest'
import * as fc from 'fast-check'
import type { Reading, Serial } from '#core/measure/reading'
import type { Plan } from '#core/plan/plan'
import type { AlarmEntry } from '#core/watch/alarm-entry'
import type { NoticeMessage } from '#core/wire/live'
import type { Store } from '../../server/store/store.ts'

const T0 = Date.UTC(2026, 0, 10, 8)

/** A believed reading of *heron*, `second` seconds after eight. */
export const good = (second: number, rawC: number, tempC = rawC): Reading => ({
  kind: 'temp',
  probe: 'heron',
  atMs: T0 + second * 1000,
  rawC,
  tempC,
  verdict: 'good',
})

const serial = (seq: number, boot = 'boot-a'): Serial => ({ boot, seq })
const whole = { probe: 'heron', fromMs: 0, toMs: Number.MAX_SAFE_INTEGER }

export const plan: Plan = {
  title: 'Red on wool',
  fibre: 'wool',
  stages: [
    {
      id: 'mordant',
      title: 'Alum',
      kind: 'hold',
      windowC: [80, 86],
      holdMin: 60,
      goods: true,
      additives: [],
    },
    { id: 'rinse', title: 'Rinse', kind: 'rest', minutes: 10, additives: [] },
  ],
}

/** What every engine must do. `open` gives an empty store. */
export function storeContract(open: () => Promise<Store>): void {
  const fresh = async () => {
    const store = await open()
    onTestFinished(() => store.close())
    return store
  }
  readingRules(fresh)
  traceRules(fresh)
  recordRules(fresh)
  alarmRules(fresh)
  heatRules(fresh)
  nightRules(fresh)
  commitRules(fresh)
}

type Fresh = () => Promise<Store>

const heronOf = (litres: number) => ({ title: 'Heron', vessel: { litres, burner: { dialMax: 10 } } })

const said = (atS: number, rawC: number, deviceMs: number) => ({
  reading: good(atS, rawC),
  serial: null,
  deviceMs,
})

function commitRules(fresh: Fresh): void {
  test('what is written in one commit is there as a whole, transactions within it too', async () => {
    const store = await fresh()
    const { plans, readings } = store
    const made = await store.inOneCommit(async () => {
      await readings.add([{ reading: good(0, 70), serial: serial(0) }])
      return plans.add(plan, T0)
    })
    expect(await plans.get(made.id)).toMatchObject({ plan })
    expect(await readings.between(whole)).toEqual([good(0, 70)])
  })

  test('of what fails half-way nothing is there, and it can be done again', async () => {
    const store = await fresh()
    const { plans, readings } = store
    const half = store.inOneCommit(async () => {
      await readings.add([{ reading: good(0, 70), serial: serial(0) }])
      await plans.add(plan, T0)
      throw new Error('half-way')
    })
    await expect(half).rejects.toThrow('half-way')
    expect([await plans.list(), await readings.between(whole)]).toEqual([[], []])
    expect(await readings.add([{ reading: good(0, 70), serial: serial(0) }])).toEqual(['stored'])
  })
}

function readingRules(fresh: Fresh): void {
  test('a reading with a serial that is sent twice is stored once, whatever time it carries', async () => {
    const { readings } = await fresh()
    expect(await readings.add([{ reading: good(0, 70), serial: serial(0) }])).toEqual(['stored'])
    expect(await readings.add([{ reading: good(9, 70), serial: serial(0) }])).toEqual(['duplicate'])
    expect(await readings.between(whole)).toEqual([good(0, 70)])
  })

  test('a reading without a serial whose device’s clock is wrong is known by what that says, and its value', async () => {
    const { readings } = await fresh()
    expect(await readings.add([said(0, 70, 300_000)])).toEqual(['stored'])
    expect(await readings.add([said(9, 70, 300_000)])).toEqual(['duplicate'])
    expect(await readings.add([said(10, 71, 300_000), said(11, 70, 301_000)])).toEqual(['stored', 'stored'])
  })

  test('a reading without a serial is known by its time and value', async () => {
    const { readings } = await fresh()
    const one = { reading: good(0, 70), serial: null }
    expect(await readings.add([one, one])).toEqual(['stored', 'duplicate'])
    expect(await readings.add([one])).toEqual(['duplicate'])
  })

  test('another value for a taken time is kept apart and flagged, and is a duplicate when it comes again', async () => {
    const { readings } = await fresh()
    const other = { reading: good(0, 71), serial: null }
    expect(await readings.add([{ reading: good(0, 70), serial: null }, other])).toEqual([
      'stored',
      'second-value',
    ])
    expect(await readings.add([other])).toEqual(['duplicate'])
    expect(await readings.between(whole)).toEqual([good(0, 70), { ...good(0, 71), verdict: 'second-value' }])
  })

  test('raw and corrected values and faults come back as they were given', async () => {
    const { readings } = await fresh()
    const fault: Reading = {
      kind: 'fault',
      probe: 'heron',
      atMs: T0 + 1,
      fault: 'not-connected',
      found: '-127',
    }
    const given = [good(0, 70.25, 69.65), fault, { ...good(2, 85), verdict: 'start-up' as const }]
    await readings.add(given.map((reading) => ({ reading, serial: null })))
    expect(await readings.between(whole)).toEqual(given)
    expect(await readings.tally(whole)).toEqual({ good: 1, 'not-connected': 1, 'start-up': 1 })
    expect(await readings.newest()).toEqual([given[2]])
  })

  test('property: however a delivery is cut, doubled and shuffled, each reading is stored exactly once', async () => {
    const deliveries = fc.array(fc.nat({ max: 2500 }), { minLength: 1, maxLength: 60 })
    await fc.assert(
      fc.asyncProperty(fc.array(deliveries, { minLength: 1, maxLength: 6 }), async (batches) => {
        const store = await fresh()
        for (const seqs of batches)
          await store.readings.add(
            seqs.map((seq) => ({ reading: good(seq, 20 + seq / 100), serial: serial(seq) })),
          )
        const times = [...new Set(batches.flat())].sort((a, b) => a - b).map((seq) => T0 + seq * 1000)
        expect((await store.readings.between(whole)).map((r) => r.atMs)).toEqual(times)
      }),
      { numRuns: 15 },
    )
  })
}

function traceRules(fresh: Fresh): void {
  test('a trace gives all readings while there are at most as many as asked for, without the end', async () => {
    const { readings } = await fresh()
    await readings.add([0, 1, 2].map((s) => ({ reading: good(s, 70 + s, 69 + s), serial: null })))
    const range = { probe: 'heron', fromMs: T0, toMs: T0 + 2000 }
    expect(await readings.trace(range, 2)).toEqual([
      [T0, 69],
      [T0 + 1000, 70],
    ])
    expect(await readings.trace({ ...range, probe: 'nobody' }, 2)).toEqual([])
  })

  test('property: a thinned trace has at most N stored points, by time, with the highest and the lowest of all', async () => {
    const store = await fresh()
    const wave = Array.from({ length: 20_000 }, (_, s) =>
      good(s, 60 + 20 * Math.sin(s / 700) + (s % 7) / 100),
    )
    await store.readings.add(wave.map((reading) => ({ reading, serial: null })))
    const known = new Map(wave.map((r) => [r.atMs, r.kind === 'temp' ? r.tempC : 0]))
    const stretch = fc.tuple(fc.integer({ min: -500, max: 20_500 }), fc.integer({ min: 1, max: 20_000 }))
    await fc.assert(
      fc.asyncProperty(stretch, fc.integer({ min: 2, max: 400 }), async ([from, length], points) => {
        const range = {
          probe: 'heron',
          fromMs: T0 + from * 1000 + 13,
          toMs: T0 + (from + length) * 1000 + 13,
        }
        const got = await store.readings.trace(range, points)
        const inside = wave.filter((r) => r.atMs >= range.fromMs && r.atMs < range.toMs)
        const temps = inside.map((r) => known.get(r.atMs)!)
        expect(got.length).toBeLessThanOrEqual(Math.max(points, 2))
        expect(got.every(([atMs, tempC]) => known.get(atMs) === tempC)).toBe(true)
        expect(got.map((p) => p[0])).toEqual(got.map((p) => p[0]).toSorted((a, b) => a - b))
        expect(inside.length > points || got.length === inside.length).toBe(true)
        expect(Math.max(...got.map((p) => p[1]))).toBe(Math.max(...temps))
        expect(Math.min(...got.map((p) => p[1]))).toBe(Math.min(...temps))
      }),
      { numRuns: 60 },
    )
  })
}

function recordRules(fresh: Fresh): void {
  test('a batch keeps the version of the plan that it ran on', async () => {
    const { plans, batches } = await fresh()
    const first = await plans.add(plan, T0)
    const batch = await batches.add({
      title: 'Two skeins',
      planId: first.id,
      planVersion: 1,
      dryWeightG: 400,
      madeMs: T0,
    })
    const second = await plans.addVersion(first.id, { ...plan, title: 'Redder on wool' }, T0 + 1)
    expect(second?.version).toBe(2)
    expect((await plans.get(first.id))?.plan.title).toBe('Redder on wool')
    expect((await plans.versions(first.id)).map((p) => p.version)).toEqual([1, 2])
    expect((await batches.get(batch.id))?.plan).toEqual(plan)
    expect(await plans.addVersion(999, plan, T0)).toBe(null)
  })

  test('a stage keeps the litres with which it ran; a pot that is filled otherwise changes the running one alone', async () => {
    const { plans, batches, pots } = await fresh()
    await pots.add({ id: 'heron', ...heronOf(16) })
    const { id: planId } = await plans.add(plan, T0)
    const { id } = await batches.add({ title: 'B', planId, planVersion: 1, dryWeightG: null, madeMs: T0 })
    const start = (stageId: string, startedMs: number) =>
      batches.startStage({ batchId: id, stageId, potId: 'heron', probe: 'p', startedMs })
    await start('mordant', T0)
    await pots.change('heron', heronOf(14))
    await start('rinse', T0 + 10)
    await pots.change('heron', heronOf(12))
    await batches.end(id, T0 + 20)
    await pots.change('heron', heronOf(20))
    expect((await batches.get(id))?.stages.map((run) => run.litres)).toEqual([14, 12])
  })

  test('starting a stage ends the one before it, in the batch and in the pot', async () => {
    const { plans, batches } = await fresh()
    const { id: planId } = await plans.add(plan, T0)
    const make = () => batches.add({ title: 'B', planId, planVersion: 1, dryWeightG: null, madeMs: T0 })
    const [a, b] = [await make(), await make()]
    const start = (batchId: number, stageId: string, startedMs: number) =>
      batches.startStage({ batchId, stageId, potId: 'heron', probe: 'p', startedMs })
    await start(a.id, 'mordant', T0)
    await start(a.id, 'rinse', T0 + 10)
    await start(b.id, 'mordant', T0 + 20)
    expect((await batches.get(a.id))?.stages.map((s) => [s.stageId, s.startedMs, s.endedMs])).toEqual([
      ['mordant', T0, T0 + 10],
      ['rinse', T0 + 10, T0 + 20],
    ])
    expect((await batches.running()).map((r) => r.batchId)).toEqual([b.id])
    expect((await batches.runsOn('p', T0 + 11, T0 + 12)).map((r) => r.stageId)).toEqual(['rinse'])
    await batches.end(b.id, T0 + 30)
    expect((await batches.list({ limit: 9 })).map((x) => [x.id, x.state])).toEqual([
      [b.id, 'ended'],
      [a.id, 'running'],
    ])
  })

  test('a struck event stays on record and counts no more', async () => {
    const { events } = await fresh()
    const base = { notedMs: T0, potId: 'heron', batchId: null, stageId: null, who: 'Ada' }
    const dial = await events.add({ ...base, atMs: T0, event: { kind: 'dial', dial: 3.5 } })
    await events.add({ ...base, atMs: T0 - 5, event: { kind: 'goods-in' } })
    expect(await events.strike(dial.id, T0 + 9, null)).toEqual({ ...dial, struckMs: T0 + 9 })
    expect(await events.strike(dial.id, T0 + 9, null)).toBe(null)
    expect((await events.ofPot('heron', 0)).map((e) => e.event.kind)).toEqual(['goods-in'])
  })

  test('a probe hangs in one pot at a time, and where it hung is dated', async () => {
    const { pots } = await fresh()
    for (const id of ['wren', 'heron']) await pots.add({ id, title: id, vessel: null })
    await pots.assign('p', 'wren', T0)
    await pots.assign('p', 'heron', T0 + 10)
    expect((await pots.list()).map((p) => [p.id, p.probe])).toEqual([
      ['wren', null],
      ['heron', 'p'],
    ])
    expect(await pots.assignments(T0)).toEqual([
      { probe: 'p', potId: 'wren', fromMs: T0, toMs: T0 + 10 },
      { probe: 'p', potId: 'heron', fromMs: T0 + 10, toMs: null },
    ])
  })

  test('corrections and settings of probes are kept with their date', async () => {
    const { probes } = await fresh()
    await probes.see('heron', T0, false)
    await probes.see('heron', T0 + 9, true)
    await probes.setSetting('wren', { setting: { kind: 'mqtt' }, noted: { kind: 'mqtt' }, atMs: T0 })
    const given = {
      probe: 'heron',
      fromMs: T0,
      madeMs: T0 + 1,
      who: 'Ada',
      body: { kind: 'offset', dropC: -0.6 },
    }
    const { id } = await probes.addCorrection(given)
    expect(await probes.corrections()).toEqual([{ id, ...given }])
    expect(await probes.list()).toEqual([
      { name: 'heron', firstSeenMs: T0, accepted: false, setting: null, removedMs: null },
      { name: 'wren', firstSeenMs: T0, accepted: true, setting: { kind: 'mqtt' }, removedMs: null },
    ])
    await probes.setSetting('wren', { setting: null, noted: null, atMs: T0 + 5 })
    expect((await probes.list())[1]).toMatchObject({ name: 'wren', setting: null, removedMs: T0 + 5 })
    expect(await probes.changes('wren')).toEqual([
      { atMs: T0, setting: { kind: 'mqtt' } },
      { atMs: T0 + 5, setting: null },
    ])
    expect(await probes.changes('heron')).toEqual([])
  })
}

function alarmRules(fresh: Fresh): void {
  test('an alarm is kept on the desk until it is over and done with', async () => {
    const { alarms } = await fresh()
    const entry = raisedAlarm(7)
    await alarms.put({ entry, batchId: 1, text: 'Heron: 91 °C' })
    const over: AlarmEntry = { ...entry, clearedMs: T0 + 60, life: { kind: 'normal' } }
    expect((await alarms.kept(T0 + 99)).map((a) => a.entry)).toEqual([entry])
    await alarms.put({ entry: over, batchId: 1, text: 'Heron: over' })
    expect(await alarms.kept(T0 + 99)).toEqual([])
    expect(await alarms.kept(T0 + 60)).toEqual([{ entry: over, batchId: 1, text: 'Heron: over' }])
    expect(await alarms.get(7)).toEqual({ entry: over, batchId: 1, text: 'Heron: over' })
    expect(await alarms.get(8)).toBe(null)
    expect(await alarms.lastId()).toBe(7)
  })

  test('alarms are listed newest first, by pot, batch and time', async () => {
    const { alarms } = await fresh()
    for (const id of [1, 2, 3]) await alarms.put({ entry: raisedAlarm(id), batchId: id, text: '' })
    const ids = async (query: object) =>
      (await alarms.list({ limit: 2, ...query })).map((a) => a.entry.alarmId)
    expect(await ids({})).toEqual([3, 2])
    expect(await ids({ beforeId: 3 })).toEqual([2, 1])
    expect(await ids({ batchId: 1 })).toEqual([1])
    expect(await ids({ potId: 'wren' })).toEqual([])
    expect(await ids({ sinceMs: T0 + 3 })).toEqual([3])
  })

  test('what was told after a number can be asked for', async () => {
    const { messages } = await fresh()
    expect(await messages.lastId()).toBe(0)
    for (const id of [1, 2, 5]) await messages.add({ kind: 'notice', message: notice(id) }, T0)
    await messages.add({ kind: 'notice', message: notice(5) }, T0)
    expect((await messages.after(1, 10)).map((m) => m.message.id)).toEqual([2, 5])
    expect((await messages.after(0, 2)).map((m) => m.message.id)).toEqual([2, 5])
    expect((await messages.after(0, 10))[0]).toEqual({ kind: 'notice', message: notice(1) })
    expect(await messages.lastId()).toBe(5)
  })
}

/** *heron*'s hold is done. */
const notice = (id: number): NoticeMessage => ({
  id,
  notice: 'hold-done',
  pot: 'heron',
  batch: 1,
  stage: 'mordant',
  at: 'x',
  tempC: 82,
  text: 't',
})

/** *heron* went over its ceiling `alarmId` milliseconds after eight. */
function raisedAlarm(alarmId: number): AlarmEntry {
  const point = { alarm: 'above-ceiling', potId: 'heron', stageId: 'dye', urgency: 'at-once' } as const
  const raisedMs = T0 + alarmId
  return {
    ...point,
    alarmId,
    sinceMs: raisedMs,
    raisedMs,
    clearedMs: null,
    acknowledgedMs: null,
    acknowledgedBy: null,
    foundLate: false,
    life: { kind: 'unacknowledged', sinceMs: raisedMs },
    happening: {
      ...point,
      kind: 'alarm',
      change: 'raised',
      atMs: raisedMs,
      sinceMs: raisedMs,
      tempC: 91,
      limitC: 90,
      rateCPerMin: 0.4,
      lastReadingMs: raisedMs,
      peakC: 91,
      expectedMs: null,
      dial: 4,
      potIds: ['heron'],
      reason: null,
    },
  }
}

function nightRules(fresh: Fresh): void {
  test('the alarm clock stands as it was said last', async () => {
    const { night } = await fresh()
    expect(await night.wakeWish()).toBe(null)
    await night.setWakeWish({ wakeAt: '06:30', liftC: 40 })
    await night.setWakeWish({ wakeAt: null, liftC: 37.5 })
    expect(await night.wakeWish()).toEqual({ wakeAt: null, liftC: 37.5 })
  })
}

function heatRules(fresh: Fresh): void {
  const trace = { potId: 'heron', fromMs: T0, toMs: T0 + 1000, batchId: null, litres: 14, lesson: null }

  test('what was learned of a pot stands in the order of its traces and is replaced by begin', async () => {
    const { heat } = await fresh()
    await heat.putTaught({ ...trace, fromMs: T0 + 5000 })
    await heat.putTaught(trace)
    await heat.putTaught({ ...trace, litres: 15 })
    await heat.putTaught({ ...trace, potId: 'wren' })
    expect((await heat.taught('heron')).map((t) => [t.fromMs - T0, t.litres])).toEqual([
      [0, 15],
      [5000, 14],
    ])
    await heat.removeTaught('heron', T0)
    expect((await heat.taught('heron')).length).toBe(1)
  })

  test('a forecast that was given is kept once, and found by pot and time, ends included', async () => {
    const { heat } = await fresh()
    const claim = { kind: 'cool', madeMs: T0, told: T0 + 9000, low90: T0 + 8000, high90: T0 + 9500 } as const
    const one = { ...claim, potId: 'heron', stageId: 'cool', fromTraces: 2 }
    const peak = { ...one, kind: 'peak', told: 71.25, low90: 70.5, high90: 72 } as const
    await heat.addTold([one, peak])
    await heat.addTold([
      { ...one, told: T0 + 1 },
      { ...one, potId: 'wren' },
      { ...one, madeMs: T0 + 5 },
    ])
    expect(await heat.told('heron', T0, T0 + 4)).toEqual([one, peak])
    expect((await heat.told('heron', T0 - 9, T0 + 5)).length).toBe(3)
    expect(await heat.told('heron', T0 + 1, T0 + 4)).toEqual([])
  })

  test('changes of a burner and a running evening are kept until it ends', async () => {
    const { heat } = await fresh()
    await heat.addBurnerChange({ potId: 'heron', atMs: T0, who: 'Ilse' })
    expect([await heat.burnerChanges('heron'), await heat.burnerChanges('wren')]).toEqual([[T0], []])
    await heat.setEvening('heron', { step: 'full' })
    await heat.setEvening('heron', { step: 'low' })
    expect(await heat.evenings()).toEqual([{ potId: 'heron', body: { step: 'low' } }])
    await heat.setEvening('heron', null)
    expect(await heat.evenings()).toEqual([])
  })
}
