import type { Plan } from '#core/plan/plan'
import { type RichBurner } from '../kit/rich-pot.ts'
import { RichWatch } from '../kit/rich-watch.ts'
import { seeded } from '../kit/seeded.ts'

const BURNERS: readonly RichBurner[] = ['coil', 'plate', 'gas', 'induction']

const PLAN: Plan = {
  title: 'Night',
  stages: [{ kind: 'cool', id: 'cool', title: 'Cool', additives: [], coolToC: 30 }],
}

/** A normal night: heat off, the bath cools for eleven hours, the room falls and warms again in the morning. */
export function night(seed: number): RichWatch {
  const random = seeded(seed)
  const litres = random.between(8, 60)
  const burner = random.pick(BURNERS)
  const roomC = random.between(14, 22)
  const swingC = random.between(0, 3)
  const watch = new RichWatch({
    pot: {
      litres,
      burner,
      seed,
      startC: random.between(60, 88),
      goodsKg: litres * random.between(0.01, 0.05),
      probeLagS: random.between(4, 30),
      quantumC: random.pick([0, 0.0625, 0.1, 0.5]),
      noiseC: random.between(0, 0.08),
      depth01: random.between(0.2, 0.8),
    },
    plan: PLAN,
    toldLagS: random.pick([null, 12]),
    periodS: random.pick([1, 2, 10, 30, 60]),
    roomC: (s) => roomC - swingC * Math.sin((Math.PI * s) / (8 * 3600)),
  })
  watch.lid = random.pick(['on', 'off'])
  watch.turn(random.between(0.1, 0.5))
  watch.run(600)
  watch.note('stage:cool')
  watch.turn(0)
  watch.note(`lid:${watch.lid}`)
  const stirS = random.between(600, 6000)
  const lidS = random.between(600, 9000)
  const changesLid = random.next() < 0.3
  watch.run(11 * 3600, (w) => {
    if (Math.abs(w.s - 600 - stirS) < 0.5) w.pot.stir()
    if (changesLid && Math.abs(w.s - 600 - lidS) < 0.5) w.lid = w.lid === 'on' ? 'off' : 'on'
  })
  return watch
}
