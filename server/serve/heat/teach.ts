import { learnFrom, type Learned } from '#core/bath/learn'
import { BELIEF_LAWS, type PotBelief } from '#core/bath/pot-belief'
import type { PotTrace } from '#core/bath/pot-trace'
import { steamsOpen, withoutLid } from '#core/bath/tune-lid'
import type { Lesson } from '../../store/heat.ts'
import type { BathDay } from './bath-day.ts'
import { claimsOf } from './claims-of.ts'

/** A lid is the usual thing: an open pot must explain a trace better by this much to be taken for one. */
const CLEARLY_BETTER = 6

/** What a fill adds to what was believed before it, and how that earlier belief would have foretold it. Pure. */
export function teach(before: PotBelief, day: BathDay): Lesson {
  const { learned, lid } = learnLidded(before, day.trace)
  const trace = lid === 'judged-off' ? withoutLid(day.trace) : day.trace
  return {
    laws: BELIEF_LAWS,
    belief: learned.belief,
    misfitC: learned.misfitC,
    isLike: learned.isLike,
    surroundingsC: learned.surroundingsC,
    lid,
    claims: claimsOf(before, { ...day, trace }),
  }
}

/** Where nobody noted a lid it is the usual thing, unless the pot steams like an open one and fits better as one. */
function learnLidded(
  before: PotBelief,
  trace: PotTrace,
): { readonly learned: Learned; readonly lid: Lesson['lid'] } {
  const learned = learnFrom(before, trace)
  if (trace.events.some(({ event }) => event.kind === 'lid')) return { learned, lid: 'noted' }
  const open = steamsOpen(learned.belief) ? learnFrom(before, withoutLid(trace)) : null
  return open !== null && open.cost < learned.cost - CLEARLY_BETTER
    ? { learned: open, lid: 'judged-off' }
    : { learned, lid: 'judged-on' }
}
