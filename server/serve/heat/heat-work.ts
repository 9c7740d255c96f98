import { learnFrom } from '#core/bath/learn'
import type { PotBelief } from '#core/bath/pot-belief'
import type { PotTrace } from '#core/bath/pot-trace'
import type { Lesson } from '../../store/heat.ts'
import type { BathDay } from './bath-day.ts'
import { teach } from './teach.ts'

/** A piece of learning: whole for a fill that has ended, `so-far` for an evening that is running. */
export type HeatJob =
  | { readonly kind: 'teach'; readonly before: PotBelief; readonly day: BathDay }
  | { readonly kind: 'so-far'; readonly before: PotBelief; readonly trace: PotTrace }

export type HeatAnswer<J extends HeatJob> = J['kind'] extends 'teach' ? Lesson : PotBelief

/** Where the learning is done: a fit takes longer than the watch may be held up. */
export interface HeatWork {
  run<J extends HeatJob>(job: J): Promise<HeatAnswer<J>>
  /** What is under way and what is asked for from now on rejects with `HeatWorkEnded`. */
  close(): Promise<void>
}

/** The program ends: what was to be learned is learned after the next start. */
export class HeatWorkEnded extends Error {
  override readonly name = 'HeatWorkEnded'
}

/** Pure: the same in a worker and beside the watch. */
export function doHeatJob(job: HeatJob): Lesson | PotBelief {
  switch (job.kind) {
    case 'teach':
      return teach(job.before, job.day)
    case 'so-far':
      return learnFrom(job.before, job.trace).belief
    default:
      return job satisfies never
  }
}

/** In this very thread, for programs that watch nothing else meanwhile. */
export const heatWorkHere = (): HeatWork => ({
  run: async <J extends HeatJob>(job: J) => doHeatJob(job) as HeatAnswer<J>,
  close: async () => undefined,
})
