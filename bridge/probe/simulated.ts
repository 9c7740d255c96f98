import { type ScriptedPot, beginScript, liveUntil } from '#core/bath/pot-script'
import { probeC, startPot, stepPot } from '#core/bath/simulated-pot'
import type { Vessel } from '#core/bath/vessel'
import type { Cancel } from '#core/measure/clock'
import { sampleOf } from '#core/measure/sample-of'
import { seededRandom } from '#core/measure/seeded-random'
import type { SettingsOf } from '#core/wire/probe-settings'
import { KnobsFile } from './knobs-file.ts'
import type { OpenSource } from './source.ts'

type SimulatedSettings = SettingsOf<'simulated'>

/** A pot that exists only as numbers, behind the same interface as a real probe. */
export const openSimulated: OpenSource<SimulatedSettings> = (settings, sink, world) => {
  const random = seededRandom(settings.seed)
  const startMs = world.clock.nowMs()
  const knobs = settings.knobs === undefined ? null : new KnobsFile(settings.knobs)
  let scripted = begin(settings)
  let cancel: Cancel | null = null

  const round = (): void => {
    const nowMs = world.clock.nowMs()
    scripted = liveUntil(scripted, ((nowMs - startMs) / 1000) * settings.speed)
    const turned = knobs?.turned()
    if (turned) scripted = { ...scripted, pot: stepPot(scripted.pot, 0, turned) }
    if (scripted.isPlugged) sink.sample(sampleOf(settings.name, nowMs, probeC(scripted.pot, random)))
    cancel = world.clock.after(settings.periodS * 1000, round)
  }

  sink.way('open', `${settings.name} is a simulated pot`)
  round()
  return {
    close: () => {
      cancel?.()
      return Promise.resolve()
    },
  }
}

function begin(settings: SimulatedSettings): ScriptedPot {
  const { dial, lid, script } = settings
  return beginScript(stepPot(startPot(setupOf(settings)), 0, { dial, lid }), script)
}

function setupOf(settings: SimulatedSettings): Parameters<typeof startPot>[0] {
  return {
    vessel: settings.vessel as Vessel,
    startC: settings.startC,
    noiseC: settings.noiseC,
    lossFactor: settings.lossFactor,
    ...(settings.lagS === undefined ? {} : { probeLagS: settings.lagS }),
    ...(settings.dialCurve === undefined ? {} : { dialCurve: settings.dialCurve }),
  }
}
