import { binsOf } from './hold-clock.ts'
import { forecastOf } from './forecast-of.ts'
import { outByMs } from './notices/end-notices.ts'
import type { ForecastLive, HoldLive, PotNumbers } from './pot-numbers.ts'
import { type PotState, goodsIn } from './pot-state.ts'
import { type PotView, viewOf } from './pot-view.ts'
import { type StageRun, binNow, traceAt } from './stage-run.ts'

/** The numbers of a pot at a moment. */
export function numbersOf(pot: PotState, atMs: number): PotNumbers {
  const view = viewOf(pot, atMs)
  const { probe, tempC } = view
  return {
    potId: pot.potId,
    probe: probe?.probe ?? null,
    tempC,
    rateCPerMin: tempC === null ? null : (view.rateCPerMin ?? probe?.estimate?.x.rateCPerMin ?? null),
    isRateSettling: tempC !== null && view.rateCPerMin === null,
    lastReadingMs: probe?.last?.atMs ?? null,
    lastReadingC: probe?.last?.tempC ?? null,
    periodMs: probe?.periodMs ?? null,
    dial: view.dial,
    lid: pot.lid,
    goodsIn: goodsIn(pot),
    stageStartedMs: pot.run?.startedMs ?? null,
    hold: pot.run === null ? null : holdLive(view, pot.run),
    forecast: forecastLive(view),
  }
}

/** The band belongs to a chart, not to every second's numbers. */
function forecastLive(view: PotView): ForecastLive | null {
  const forecast = forecastOf(view)
  if (forecast === null) return null
  const { band90C: _band, ...live } = forecast
  return live
}

function holdLive(view: PotView, run: StageRun): HoldLive | null {
  const { clock } = traceAt(run, view.atMs)
  if (clock === null) return null
  const counting = binNow(run, view.atMs) === 'inWindow'
  const leftMs = clock.requiredMs - clock.binsMs.inWindow
  return {
    ...binsOf(clock),
    state:
      clock.doneMs !== null ? 'done' : clock.beganMs === null ? 'waiting' : counting ? 'counting' : 'paused',
    startedMs: clock.beganMs,
    doneMs: clock.doneMs,
    expectedDoneMs: clock.doneMs ?? (clock.beganMs !== null && counting ? view.atMs + leftMs : null),
    nextTurnMs: nextTurnMs(view),
    outByMs: outByMs(view),
  }
}

function nextTurnMs({ stage, pot }: PotView): number | null {
  const { turnedMs, holdStarted, holdDone } = pot.notes
  if (stage?.kind !== 'hold' || stage.turnEveryMin === undefined || turnedMs === null) return null
  return holdStarted && !holdDone ? turnedMs + stage.turnEveryMin * 60_000 : null
}
