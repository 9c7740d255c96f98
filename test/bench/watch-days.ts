import type { Plan } from '#core/plan/plan'
import type { RichBurner } from '../kit/rich-pot.ts'
import { RichWatch } from '../kit/rich-watch.ts'
import { seeded } from '../kit/seeded.ts'

const PLAN: Plan = {
  title: 'Day',
  stages: [
    {
      kind: 'hold',
      id: 'dye',
      title: 'Dye',
      additives: [],
      windowC: [70, 78],
      ceilingC: 84,
      holdMin: 45,
      goods: true,
      maxHeatingCPerMin: 2.5,
      turnEveryMin: 10,
    },
    { kind: 'cool', id: 'cool', title: 'Cool', additives: [], coolToC: 40 },
  ],
}
const AIM_C = 74

export interface DayTruth {
  readonly watch: RichWatch
  /** Seconds in the window from the begin of the hold on: of the bath at the tip, and of the probe itself. */
  readonly bathInS: number
  readonly probeInS: number
  readonly foundInS: number
}

/** Seconds in the window since a start that lasted three minutes, of a temperature that nobody had to measure. */
class TrueHold {
  inS = 0
  #entered = false

  count(tempC: number): void {
    const isIn = tempC >= 70 && tempC <= 78
    if (isIn) this.inS += 1
    else if (!this.#entered) this.inS = 0
    this.#entered ||= this.inS >= 180
  }
}

/** A normal dye day of a careful dyer who heeds what is told: heats, turns down, adds goods, holds, lets cool. */
export function dyeDay(seed: number): DayTruth {
  const random = seeded(seed + 1000)
  const litres = random.between(8, 60)
  const burner: RichBurner = random.pick(['coil', 'plate', 'gas', 'induction'])
  const room = random.between(16, 24)
  const lagS = random.between(5, 25)
  const watch = new RichWatch({
    pot: {
      litres,
      burner,
      seed,
      startC: random.between(15, 40),
      probeLagS: lagS,
      quantumC: random.pick([0, 0.0625, 0.1]),
      noiseC: random.between(0, 0.06),
      depth01: random.between(0.4, 0.6),
    },
    plan: PLAN,
    toldLagS: random.pick([null, lagS]),
    periodS: random.pick([1, 1, 2, 5, 10]),
    roomC: (s) => room + Math.sin(s / 5000),
    setup: { vessel: { litres, burner: { dialMax: 10, kind: burner } } },
  })
  watch.lid = 'on'
  watch.note('lid:on stage:dye')
  watch.turn(1)
  const [bath, probe] = [new TrueHold(), new TrueHold()]
  let goodsS: number | null = null
  const count = () => {
    if (goodsS === null) return
    bath.count(watch.moment.atTipC)
    probe.count(watch.moment.probeC)
  }
  const dyer = careful(watch, random.between(20, 90), () => (goodsS = watch.s))
  watch.run(
    6 * 3600,
    () => (dyer(), count()),
    () => !watch.has('hold-done'),
  )
  const foundInS = watch.state.pots['pot']!.run!.trace.clock!.binsMs.inWindow / 1000
  const truth = { bathInS: bath.inS, probeInS: probe.inS, foundInS }
  watch.run(60)
  watch.turn(0)
  watch.note('stage:cool')
  watch.run(3 * 3600)
  return { watch, ...truth }
}

/** Hands that look each three minutes and turn a little, toward the middle and against the drift. */
function careful(watch: RichWatch, slowS: number, goodsWentIn: () => void): () => void {
  let next = Infinity
  let heed = Infinity
  let goodsAt = Infinity
  let lastC = 0
  return () => {
    const { s } = watch
    if (heed === Infinity && watch.has('turn-down-now')) heed = s + slowS
    if (s >= heed && next === Infinity) {
      watch.turn(0.25)
      next = s + 180
      lastC = watch.moment.readingC
    }
    if (goodsAt === Infinity && watch.has('at-window')) goodsAt = s + 60
    if (s === goodsAt) {
      const kg = watch.pot.litres * 0.03
      watch.pot.addGoods(kg, kg * 1.5, 25)
      watch.note('goods-in')
      goodsWentIn()
    }
    if (s < next) return
    next = s + 180
    const nowC = watch.moment.readingC
    const drift = (nowC - lastC) / 3
    lastC = nowC
    const want = watch.dial01 + 0.03 * (AIM_C - nowC) - 0.35 * drift
    if (Math.abs(want - watch.dial01) > 0.015) watch.turn(Math.min(0.8, Math.max(0.02, want)))
  }
}
