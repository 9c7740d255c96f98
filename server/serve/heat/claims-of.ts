import { believable } from '#core/bath/believable'
import { whatCame } from '#core/bath/judge-claim'
import type { PotBelief } from '#core/bath/pot-belief'
import { replayClaims } from '#core/bath/replay-claims'
import { type RanStage, seenStage } from '#core/bath/seen-stage'
import { hasWindow } from '#core/watch/stage-window'
import type { Claim, ToldForecast } from '../../store/heat.ts'
import type { BathDay, DayStage } from './bath-day.ts'

type Said = Omit<ToldForecast, 'potId' | 'stageId'>

/**
 * What was said of a fill against what came. Where forecasts were given live they are judged as they were given; a
 * fill that nobody watched live is judged by what the belief of before it would have said.
 */
export function claimsOf(before: PotBelief, day: BathDay): readonly Claim[] {
  const past = { ...day.trace, readings: believable(day.trace.readings) }
  const source = day.told.length > 0 ? 'live' : 'replayed'
  return day.stages.flatMap((one) => {
    const stage = ranStage(one)
    const seen = seenStage(past, stage)
    const said: readonly Said[] =
      source === 'live'
        ? toldIn(day.told, one)
        : replayClaims(before, past, stage).map((claim) =>
            Object.assign({ fromTraces: before.traces }, claim),
          )
    return said.flatMap((claim): Claim[] => {
      const came = whatCame(claim, seen)
      return came === null ? [] : [{ ...claim, stageId: one.stage.id, came, source }]
    })
  })
}

const toldIn = (told: readonly ToldForecast[], { stage, startedMs, endedMs }: DayStage): readonly Said[] =>
  told
    .filter((t) => t.stageId === stage.id && t.madeMs >= startedMs && t.madeMs <= endedMs)
    .map(({ potId: _pot, stageId: _stage, ...claim }) => claim)

const ranStage = ({ stage, startedMs, endedMs }: DayStage): RanStage => ({
  startedMs,
  endedMs,
  windowC: hasWindow(stage) ? stage.windowC : null,
  coolToC: stage.kind === 'cool' ? stage.coolToC : null,
})
