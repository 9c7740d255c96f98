import type { AlarmMessage, NoticeMessage, PotLive } from '#core/wire/live'
import type { Plan } from '#core/plan/plan'
import type { LiftTime } from '#core/watch/lift-time'
import type { PotAdvice } from '#core/watch/dial-advice'

/** A made-up stove for trying the page without a server. Every value is invented. */
export const MADDER_PLAN: Plan = {
  title: 'Red on wool, two skeins',
  fibre: 'wool',
  stages: [
    {
      id: 'mordant',
      title: 'Alum mordant',
      kind: 'hold',
      windowC: [80, 86],
      ceilingC: 90,
      holdMin: 60,
      maxHeatingCPerMin: 1.5,
      turnEveryMin: 10,
      goods: true,
      additives: [{ name: 'potassium alum', percentWof: 12 }],
    },
    { id: 'rinse', title: 'Rinse', kind: 'rest', minutes: 10, additives: [] },
    {
      id: 'dye',
      title: 'Root bath',
      kind: 'hold',
      windowC: [65, 72],
      ceilingC: 76,
      holdMin: 90,
      goods: true,
      outByMin: 240,
      liquorRatio: 30,
      additives: [{ name: 'madder root, ground', percentWof: 60 }],
    },
    { id: 'cool', title: 'Cool in the bath', kind: 'cool', coolToC: 30, additives: [] },
  ],
}

const TITLES = ['Wren', 'Heron', 'Otter', 'Sandpiper', 'Teal', 'Curlew'] as const
const LITRES = [10, 20, 40, 12, 30, 15] as const

/** Bath of pot `no` (0 …) some minutes ago, °C: holding, holding, over its ceiling, cooling, on its way, silent. */
export function madeUpTempC(no: number, agoMin: number): number {
  const wave = 0.25 * Math.sin(agoMin / 3 + no)
  const risen = (toC: number, sinceMin: number, rate: number) =>
    Math.max(19, toC - Math.max(0, agoMin - sinceMin) * rate)
  switch (no % 6) {
    case 0:
      return risen(69.4, 75, 0.95) + wave
    case 1:
      return risen(83.2, 52, 1.1) + wave
    case 2:
      return risen(68 + Math.max(0, 20 - agoMin) * 0.47, 60, 0.8) + wave
    case 3:
      return 22 + 61 * Math.exp(-(240 - agoMin) / 260) + 0.02 * wave
    case 4:
      return 24 + Math.max(0, 40 - agoMin) * 0.9 + wave
    default:
      return 58 + wave
  }
}

const STAGE_OF = ['dye', 'mordant', 'dye', 'cool', 'dye', 'mordant'] as const

export function madeUpPot(no: number, nowMs: number): PotLive {
  const stage = MADDER_PLAN.stages.find((s) => s.id === STAGE_OF[no % 6]) ?? null
  const tempC = madeUpTempC(no, 0)
  const silent = no % 6 === 5
  const at = MADDER_PLAN.stages.findIndex((s) => s.id === stage?.id)
  return {
    potId: TITLES[no]!.toLowerCase(),
    title: TITLES[no]!,
    litres: LITRES[no]!,
    dialMax: 10,
    probe: `probe-${no}`,
    tempC: silent ? null : tempC,
    rateCPerMin: silent ? null : [0.02, 0.11, 0.47, -0.21, 0.9, 0][no % 6]!,
    isRateSettling: false,
    lastReadingMs: nowMs - (silent ? 247_000 : 600),
    lastReadingC: tempC,
    periodMs: 1000,
    dial: [4, 3.5, 7, 0, 10, 5][no % 6]!,
    lid: no % 2 === 0 ? 'on' : 'off',
    goodsIn: no % 6 !== 4,
    stageStartedMs: nowMs - 6_300_000,
    hold: stage?.kind === 'hold' && no % 6 !== 4 ? madeUpHold(no, nowMs, stage.holdMin) : null,
    forecast: {
      reachesWindowMs: no % 6 === 4 ? nowMs + 9 * 60_000 : null,
      leavesWindowMs: no % 6 === 1 ? nowMs + 21 * 60_000 : null,
      reachesCoolToMs: no % 6 === 3 ? nowMs + 310 * 60_000 : null,
      reachesCoolTo90Ms: no % 6 === 3 ? [nowMs + 290 * 60_000, nowMs + 335 * 60_000] : null,
      peakC: no % 6 === 4 ? 73.1 : null,
    },
    advice: madeUpAdvice(no),
    lift: no % 6 === 3 ? madeUpLift(nowMs) : null,
    batch: { id: no + 1, title: `Marl, lot ${no + 11}` },
    stage,
    stages: MADDER_PLAN.stages.map(({ id, title }, i) => ({
      id,
      title,
      state: i < at ? 'done' : i === at ? 'running' : 'to-come',
    })),
  }
}

/** The alarm clock rings in the hour before the bath is cool enough. */
const madeUpLift = (nowMs: number): LiftTime => ({
  wakeMs: nowMs + 230 * 60_000,
  liftC: 40,
  verdict: 'not-before',
  liftMs: nowMs + 270 * 60_000,
  range90Ms: [nowMs + 250 * 60_000, nowMs + 290 * 60_000],
  lid: 'off',
  otherLidMs: null,
})

function madeUpAdvice(no: number): PotAdvice | null {
  if (no % 6 !== 4) return null
  const dial = {
    kind: 'heat-up',
    heatDial: null,
    holdDial: 3.5,
    turnDownAtC: 65.6,
    isNow: false,
    peakC: 68.9,
    holdsC: [67, 70],
    reachesMs: null,
  } as const
  return { dial, sense: null, isGuess: false }
}

function madeUpHold(no: number, nowMs: number, holdMin: number): PotLive['hold'] {
  const requiredS = holdMin * 60
  const inWindowS = [4410, 2460, 2940, 0, 0, 1260][no % 6]!
  return {
    requiredS,
    inWindowS,
    aboveWindowS: no % 6 === 2 ? 540 : 0,
    belowWindowS: no % 6 === 1 ? 420 : 0,
    aboveCeilingS: no % 6 === 2 ? 65 : 0,
    unknownS: no % 6 === 5 ? 247 : 0,
    goodsOutS: 0,
    state: no % 6 === 2 || no % 6 === 5 ? 'paused' : 'counting',
    startedMs: nowMs - 5_000_000,
    doneMs: null,
    expectedDoneMs: no % 6 === 5 ? null : nowMs + (requiredS - inWindowS) * 1000,
    nextTurnMs: no % 6 === 1 ? nowMs + 4 * 60_000 : null,
    outByMs: no % 6 === 0 ? nowMs + 130 * 60_000 : null,
  }
}

const iso = (atMs: number) => new Date(atMs).toISOString()

export const madeUpAlarm = (pot: string, id: number, nowMs: number): AlarmMessage => ({
  id,
  alarmId: id,
  alarm: 'above-ceiling',
  urgency: 'at-once',
  change: 'raised',
  state: 'unacknowledged',
  pot,
  batch: 3,
  stage: 'dye',
  tempC: 77.3,
  limitC: 76,
  sinceAt: iso(nowMs - 65_000),
  raisedAt: iso(nowMs - 60_000),
  clearedAt: null,
  acknowledgedAt: null,
  acknowledgedBy: null,
  text: 'Otter: 77.3 °C, over its ceiling of 76.0 °C, rising 0.5 °C a minute. Is the burner turned up? Turn it off and lift the lid away from you.',
})

export const madeUpNotice = (pot: string, id: number, atMs: number): NoticeMessage => ({
  id,
  notice: 'turn-due',
  pot,
  batch: 2,
  stage: 'mordant',
  at: iso(atMs),
  tempC: 83.1,
  text: 'Heron: turn the goods, gently.',
})
