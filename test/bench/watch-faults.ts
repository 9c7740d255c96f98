import { learnFrom } from '#core/bath/learn'
import { type PotBelief, guessPot } from '#core/bath/pot-belief'
import type { Lid } from '#core/bath/pot-model'
import type { Vessel } from '#core/bath/vessel'
import type { Plan } from '#core/plan/plan'
import { startStove, stepStove } from '#core/watch/stove'
import type { StoveInput } from '#core/watch/stove-input'
import { type RichBurner, RichPot, type RichPotSetup } from '../kit/rich-pot.ts'
import { RichWatch } from '../kit/rich-watch.ts'
import { type Seeded, seeded } from '../kit/seeded.ts'

const BURNERS: readonly RichBurner[] = ['coil', 'plate', 'gas', 'induction']
const LAG_S = 12

const HOLD: Plan = {
  title: 'Hold',
  stages: [
    {
      kind: 'hold',
      id: 'dye',
      title: 'Dye',
      additives: [],
      windowC: [66, 72],
      ceilingC: 76,
      holdMin: 600,
      goods: false,
    },
  ],
}
const COOL: Plan = {
  title: 'Cool',
  stages: [{ kind: 'cool', id: 'cool', title: 'Cool', additives: [], coolToC: 30 }],
}

const SOAK: Plan = {
  title: 'Soak',
  stages: [{ kind: 'soak', id: 'soak', title: 'Soak', additives: [], minutes: 120 }],
}

const potOf = (random: Seeded, seed: number, startC: number): RichPotSetup => ({
  litres: random.between(8, 60),
  burner: random.pick(BURNERS),
  seed,
  startC,
  probeLagS: LAG_S,
  quantumC: random.pick([0, 0.0625, 0.1]),
  noiseC: random.between(0, 0.05),
})

/** Dial that about holds a bath at `tempC`, found by trying: what a dyer knows of the pot. */
function holdingDial(setup: RichPotSetup, tempC: number): number {
  let [low, high] = [0, 1]
  for (let i = 0; i < 12; i++) {
    const dial01 = (low + high) / 2
    const watch = new RichWatch({
      pot: { ...setup, startC: tempC },
      plan: COOL,
      toldLagS: null,
      periodS: 999_999,
    })
    watch.dial01 = dial01
    watch.run(1500)
    const middleC = watch.moment.meanC
    watch.run(600)
    if (watch.moment.meanC > middleC) high = dial01
    else low = dial01
  }
  return (low + high) / 2
}

const between = (a: number | null, b: number | null): number | null =>
  a === null || b === null ? null : b - a

export interface Crossings {
  /** Seconds from the true crossing to the alarm. */
  readonly ceilingS: number | null
  readonly windowS: number | null
  /** Seconds that `heading-above-window` came before the true crossing of the top. */
  readonly leadS: number | null
  /** Seconds from the hand at the dial to the true crossing of the top, less the on-delay: no lead is longer. */
  readonly mostLeadS: number | null
}

/** The bath has held well until then. */
const TURNED_S = 2100
/** The contract's delay before `heading-above-window` is told. */
const ON_DELAY_S = 60

/** A bath that holds well and then is driven up by a burner turned up by `share` of its range. */
export function driven(seed: number, toldLagS: number | null, share: number): Crossings {
  const random = seeded(seed + 5000)
  const setup = potOf(random, seed, 69)
  const watch = new RichWatch({ pot: setup, plan: HOLD, toldLagS })
  watch.note('stage:dye lid:on')
  const dial = holdingDial(setup, 69)
  watch.turn(dial)
  if (toldLagS === null) learnLag(watch)
  watch.run(TURNED_S - watch.s)
  watch.turn(Math.min(1, dial + share))
  let topS: number | null = null
  let ceilingS: number | null = null
  watch.run(
    4 * 3600,
    (w) => {
      if (topS === null && w.moment.atTipC > 72) topS = w.s
      if (ceilingS === null && w.moment.atTipC > 76) ceilingS = w.s
    },
    () => !watch.has('above-ceiling') || ceilingS === null,
  )
  const first = (alarm: string, fromS: number) => watch.raisedS(alarm).find((s) => s >= fromS) ?? null
  return {
    ceilingS: between(ceilingS, first('above-ceiling', TURNED_S)),
    windowS: between(topS, first('above-window', TURNED_S)),
    leadS: between(first('heading-above-window', TURNED_S), topS),
    mostLeadS: between(TURNED_S + ON_DELAY_S, topS),
  }
}

/** The probe is lifted and hung back: what teaches the watch how fast it is. */
function learnLag(watch: RichWatch): void {
  watch.run(300)
  watch.pot.liftProbe()
  watch.run(60)
  watch.pot.dipProbe()
  watch.run(240)
}

/** Seconds from the probe leaving the bath to the alarm. */
export function probeLifted(seed: number): number | null {
  const random = seeded(seed + 6000)
  const startC = random.between(50, 90)
  const watch = new RichWatch({ pot: potOf(random, seed, startC), plan: COOL, toldLagS: LAG_S })
  watch.note('stage:cool')
  watch.run(900)
  watch.pot.liftProbe()
  watch.run(120)
  const [s] = watch.raisedS('probe-out')
  return s === undefined ? null : s - 900
}

/** Seconds from a burner coming on in a cool-down to the alarm. */
export function burnerComesOn(seed: number): number | null {
  const random = seeded(seed + 7000)
  const watch = new RichWatch({
    pot: potOf(random, seed, random.between(65, 88)),
    plan: COOL,
    toldLagS: LAG_S,
  })
  watch.lid = random.pick(['on', 'off'])
  watch.note(`stage:cool dial:0 lid:${watch.lid}`)
  const onS = Math.round(random.between(1, 5) * 3600)
  watch.run(onS)
  watch.dial01 = random.between(0.5, 1)
  watch.run(1800)
  const s = watch.raisedS('not-cooling').find((t) => t >= onS)
  return s === undefined ? null : s - onS
}

/** Nine hours, an overnight rest. */
const NIGHT_S = 9 * 3600
/** The temperature that the forgotten burner holds in the end. */
const HELD_C = 60

/** Minutes until `not-cooling` in a cool-down over a burner left on low, of a pot that nobody knows. */
export function burnerLeftOnLow(seed: number): number | null {
  const random = seeded(seed + 7500)
  const pot = potOf(random, seed, random.between(HELD_C + 6, 88))
  const watch = new RichWatch({ pot, plan: COOL, toldLagS: LAG_S, periodS: 5 })
  watch.lid = random.pick(['on', 'off'])
  watch.note('stage:cool dial:0')
  watch.dial01 = watch.pot.calmLossW(HELD_C, watch.lid, 19) / watch.pot.settledHeatW(1)
  watch.run(
    NIGHT_S,
    () => {},
    () => !watch.has('not-cooling'),
  )
  const [s] = watch.raisedS('not-cooling')
  return s === undefined ? null : s / 60
}

/** Seconds from the dial to `no-heat` when nothing is under the pot. */
export function noBurner(seed: number): number | null {
  const random = seeded(seed + 8000)
  const watch = new RichWatch({
    pot: potOf(random, seed, random.between(15, 35)),
    plan: HOLD,
    toldLagS: LAG_S,
  })
  watch.note('stage:dye lid:on')
  watch.run(120)
  watch.note('dial:8')
  watch.run(900)
  const [s] = watch.raisedS('no-heat')
  return s === undefined ? null : s - 120
}

/**
 * Error of the remaining time to 40 °C, told one hour into a cool-down, as a share; the room known to ±2 °C.
 * `isLearned`: the pot has cooled once before, on another evening, with the same lid.
 */
export function forecastError(seed: number, isLearned: boolean): number | null {
  const random = seeded(seed + 9000)
  const roomC = random.between(15, 23)
  const pot = potOf(random, seed, random.between(75, 90))
  const vessel: Vessel = {
    litres: pot.litres,
    surroundingsC: roomC + random.between(-2, 2),
    burner: { dialMax: 10, kind: pot.burner },
  }
  const lid = random.pick(['on', 'off'] as const)
  const watch = new RichWatch({
    pot,
    plan: { ...COOL, stages: [{ ...COOL.stages[0]!, coolToC: 40 } as Plan['stages'][number]] },
    toldLagS: LAG_S,
    periodS: 5,
    roomC: () => roomC,
    setup: { vessel, ...(isLearned ? { belief: earlierNight(pot, vessel, lid) } : {}) },
  })
  watch.lid = lid
  watch.note(`stage:cool dial:0 lid:${watch.lid}`)
  watch.run(3600)
  if (watch.moment.atTipC <= 45) return null
  const told = watch.forecastCoolS()
  watch.run(
    30 * 3600,
    () => {},
    () => watch.moment.atTipC > 40,
  )
  const trueS = watch.s - 3600
  return told === null ? Number.NaN : (told - 3600 - trueS) / trueS
}

/** What a cool-down of the same pot on another evening teaches: another room, other draughts. */
function earlierNight(setup: RichPotSetup, vessel: Vessel, lid: Lid): PotBelief {
  const roomC = 19
  const pot = new RichPot({ ...setup, startC: 80 })
  const readings: { atMs: number; tempC: number }[] = []
  for (let s = 0; s < 6 * 3600; s++) {
    const { readingC } = pot.step(1, 0, lid, roomC)
    // The first quarter of an hour is left out, so that the draughts of this evening are not those of the next.
    if (s >= 900 && s % 30 === 0) readings.push({ atMs: s * 1000, tempC: readingC })
  }
  const events = [{ atMs: 900_000, event: { kind: 'lid', lid } }] as const
  return learnFrom(guessPot(vessel), { readings, events, surroundingsC: roomC }).belief
}

/** Seconds from a stage's start to one message about the wrong burner: the heat goes under another pot. */
export function wrongBurner(seed: number): number | null {
  const random = seeded(seed + 9500)
  const [meant, heated] = [potOf(random, seed, 20), { ...potOf(random, seed + 1, 22), litres: 10 }]
  const pots = { meant: new RichPot(meant), heated: new RichPot(heated) }
  let state = startStove()
  let raisedS: number | null = null
  const feed = (input: StoveInput) => {
    const step = stepStove(state, input)
    state = step.state
    const found = step.happenings.find((h) => h.kind === 'alarm' && h.change === 'raised')
    if (found?.kind === 'alarm' && found.alarm === 'wrong-burner') raisedS ??= found.atMs / 1000 - 300
  }
  for (const [potId, plan] of [
    ['meant', HOLD],
    ['heated', SOAK],
  ] as const) {
    feed({ kind: 'pot', atMs: 0, potId, pot: { title: potId, vessel: null, lagS: LAG_S } })
    feed({ kind: 'assign', atMs: 0, potId, probe: potId, use: 'on' })
    feed({ kind: 'batch', atMs: 0, potId, batchId: 1, plan, dryWeightG: null })
  }
  feed({ kind: 'event', atMs: 0, potId: 'heated', event: { kind: 'stage', stageId: 'soak' } })
  for (let s = 1; s <= 1200; s++) {
    const atMs = s * 1000
    if (s === 300) {
      feed({ kind: 'event', atMs, potId: 'meant', event: { kind: 'stage', stageId: 'dye' } })
      feed({ kind: 'event', atMs, potId: 'meant', event: { kind: 'dial', dial: 8 } })
    }
    for (const probe of ['meant', 'heated'] as const) {
      const dial01 = probe === 'heated' && s >= 300 ? 0.8 : 0
      const tempC = pots[probe].step(1, dial01, 'on', 20).readingC
      feed({
        kind: 'reading',
        atMs,
        reading: { kind: 'temp', probe, atMs, rawC: tempC, tempC, verdict: 'good' },
      })
    }
    feed({ kind: 'tick', atMs })
  }
  return raisedS
}
