import type { PotBelief } from '#core/bath/pot-belief'
import { type PotAct, type SimulatedPotState, probeC, stepPot } from '#core/bath/simulated-pot'
import type { BathEvent } from '#core/plan/event'
import type { HoldStage, Plan, Stage } from '#core/plan/plan'
import { type DemoPot, filledPot, ROOM_C } from './studio.ts'
import { advisedTurningDown, type TurningDown } from './turning-down.ts'

/** A day at one pot as the record would have kept it. Times in seconds from the day's first. */
export interface SimulatedDay {
  readonly readings: readonly { readonly atS: number; readonly rawC: number }[]
  readonly events: readonly { readonly atS: number; readonly event: BathEvent }[]
  readonly endedS: number
}

export interface DyeDay {
  readonly plan: Plan
  readonly pot: DemoPot
  readonly dryKg: number
  /** Seconds between readings. */
  readonly periodS: number
  readonly random: () => number
  /** What was learned of the burner, to go by its advice; `null`: only a thermometer and a dial. */
  readonly belief: PotBelief | null
  /** So many minutes into the last hold a jug of cold water goes in; `null`: never. */
  readonly jugAtMin: number | null
}

/** How this dyer works: looks at the pot every so often and turns the dial a little against a drift. */
const HABIT = { looksEveryS: 240, enterAtC: 36, fillC: 24, longestCoolS: 13 * 3600, staysOnS: 90 } as const

/** Lets an invented dyer run a whole plan on a simulated pot. */
export function simulateDay(day: DyeDay): SimulatedDay {
  const bench = new Bench(day)
  // Who has learned a burner has learned to note the lid.
  if (day.belief !== null) bench.note({ kind: 'lid', lid: 'on' })
  for (const stage of day.plan.stages) bench.run(stage)
  bench.note({ kind: 'end' })
  return { readings: bench.readings, events: bench.events, endedS: bench.atS }
}

class Bench {
  atS = 0
  readonly readings: { atS: number; rawC: number }[] = []
  readonly events: { atS: number; event: BathEvent }[] = []
  readonly #day: DyeDay
  #pot: SimulatedPotState
  #goodsIn = false
  #lastLookC = 0

  constructor(day: DyeDay) {
    this.#day = day
    this.#pot = this.#filled()
  }

  run(stage: Stage): void {
    this.note({ kind: 'stage', stageId: stage.id })
    switch (stage.kind) {
      case 'hold':
        return this.#hold(stage)
      case 'cool':
        return this.#cool(stage.coolToC)
      case 'soak':
      case 'rest':
        return this.#rest(stage.minutes)
      case 'keep-warm':
        return this.#rest(stage.minutes ?? 60)
      default:
        return stage satisfies never
    }
  }

  note(event: BathEvent): void {
    this.events.push({ atS: this.atS, event })
  }

  #filled(): SimulatedPotState {
    return filledPot(this.#day.pot, HABIT.fillC)
  }

  #step(act: PotAct = {}): void {
    const { periodS, random } = this.#day
    this.#pot = stepPot(this.#pot, periodS, act)
    this.atS += periodS
    this.readings.push({ atS: this.atS, rawC: probeC(this.#pot, random) })
  }

  #turn(dial: number): void {
    if (dial === this.#pot.dial) return
    this.note({ kind: 'dial', dial })
    this.#step({ dial })
  }

  #hold(stage: HoldStage): void {
    const [lowC] = stage.windowC
    const { dialMax, kind } = this.#day.pot.vessel.burner
    this.#turn(halfStep(kind === 'gas' ? dialMax * 0.6 : dialMax * 0.8))
    while (this.#pot.waterC < HABIT.enterAtC) this.#step()
    if (stage.goods && !this.#goodsIn) this.#enter()
    let turning: TurningDown = { atC: lowC - 1, toDial: halfStep(dialMax * 0.3) }
    while (this.#pot.probeC < turning.atC) {
      this.#step()
      if (this.atS % 60 < this.#day.periodS) turning = this.#turningDown(stage, turning)
    }
    this.#turn(turning.toDial)
    this.#keep(stage, turning.toDial)
    this.#turn(0)
  }

  #turningDown(stage: HoldStage, meant: TurningDown): TurningDown {
    const { belief, periodS } = this.#day
    const back = this.readings.at(-1 - Math.round(60 / periodS))
    if (belief === null || back === undefined) return meant
    const { dial, probeC: tempC } = this.#pot
    return advisedTurningDown(belief, stage, { dial, tempC, rateCPerMin: tempC - back.rawC }, meant)
  }

  #enter(): void {
    this.note({ kind: 'goods-in' })
    const { dryKg } = this.#day
    this.#step({ goodsIn: { dryKg, waterKg: dryKg * 2, tempC: 25 } })
    this.#goodsIn = true
  }

  /** Looks, turns the goods, corrects the dial, until the time in the window is reached. */
  #keep(stage: HoldStage, mark: number): void {
    const [lowC, highC] = stage.windowC
    let inWindowS = 0
    for (let heldS = 0; inWindowS < stage.holdMin * 60 + HABIT.staysOnS; heldS += this.#day.periodS) {
      this.#step(this.#jugAt(stage, heldS))
      if (this.#pot.waterC >= lowC && this.#pot.waterC <= highC) inWindowS += this.#day.periodS
      if (heldS % HABIT.looksEveryS < this.#day.periodS) {
        if (this.#day.belief === null) this.#correct((lowC + highC) / 2)
        else this.#trust(mark, lowC)
      }
      const turnS = (stage.turnEveryMin ?? 15) * 60
      if (heldS > 0 && heldS % turnS < this.#day.periodS) this.note({ kind: 'stir' })
    }
  }

  #jugAt(stage: HoldStage, heldS: number): PotAct {
    const { plan, jugAtMin, periodS } = this.#day
    const isLast = plan.stages.findLast((s) => s.kind === 'hold') === stage
    const isNow = jugAtMin !== null && Math.abs(heldS - jugAtMin * 60) < periodS / 2
    if (!isLast || !isNow) return {}
    this.note({ kind: 'top-up' })
    return { topUp: { litres: this.#pot.waterKg * 0.09, tempC: 12 } }
  }

  /** Lets the advised mark stand, but for a bath that was made cold: that is brought up first. */
  #trust(mark: number, lowC: number): void {
    const isCold = this.#pot.probeC < lowC
    this.#turn(isCold ? halfStep(this.#day.pot.vessel.burner.dialMax / 2) : mark)
  }

  /** Half a step against the drift, unless the bath is on its way back already. */
  #correct(middleC: number): void {
    const { dialMax } = this.#day.pot.vessel.burner
    const offC = this.#pot.probeC - middleC
    const driftC = this.#pot.probeC - this.#lastLookC
    this.#lastLookC = this.#pot.probeC
    if (Math.abs(offC) < 0.8 || driftC * Math.sign(offC) < -0.1) return
    const dial = this.#pot.dial - Math.sign(offC) * 0.5
    this.#turn(Math.min(dialMax, Math.max(0, dial)))
  }

  #cool(coolToC: number): void {
    this.#turn(0)
    const fromS = this.atS
    while (this.#pot.waterC > coolToC && this.atS - fromS < HABIT.longestCoolS) this.#step()
    if (this.#goodsIn) this.note({ kind: 'goods-out' })
    this.#goodsIn = false
  }

  /** Out of the bath; the pot is emptied and filled again meanwhile. */
  #rest(minutes: number): void {
    if (this.#goodsIn) this.note({ kind: 'goods-out' })
    this.#goodsIn = false
    const untilS = this.atS + minutes * 60
    this.#pot = { ...this.#filled(), waterC: ROOM_C, probeC: ROOM_C }
    while (this.atS < untilS) this.#step()
    this.#pot = this.#filled()
  }
}

const halfStep = (dial: number): number => Math.max(0.5, Math.round(dial * 2) / 2)
