import { probeC, type SimulatedPotState, startPot, stepPot } from '#core/bath/simulated-pot'
import type { Vessel } from '#core/bath/vessel'
import type { Cancel } from '#core/measure/clock'
import { sampleOf } from '#core/measure/sample-of'
import { seededRandom } from '#core/measure/seeded-random'
import type { ScriptedChange, SettingsOf } from '#core/wire/probe-settings'
import type { OpenSource } from './source.ts'

type SimulatedSettings = SettingsOf<'simulated'>

/** A pot that exists only as numbers, behind the same interface as a real probe. */
export const openSimulated: OpenSource<SimulatedSettings> = (settings, sink, world) => {
  const random = seededRandom(settings.seed)
  const startMs = world.clock.nowMs()
  let pot = startPot(setupOf(settings))
  pot = stepPot(pot, 0, { dial: settings.dial, lid: settings.lid })
  let lived = { s: 0, changes: 0, isPlugged: true }
  let cancel: Cancel | null = null

  const round = (): void => {
    const nowMs = world.clock.nowMs()
    const untilS = ((nowMs - startMs) / 1000) * settings.speed
    const next = live(settings.script, pot, lived, untilS)
    pot = next.pot
    lived = next.lived
    if (lived.isPlugged) sink.sample(sampleOf(settings.name, nowMs, probeC(pot, random)))
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

interface Lived {
  /** Seconds of the pot's own life, and how much of its script it has seen. */
  readonly s: number
  readonly changes: number
  readonly isPlugged: boolean
}

/** The pot at `untilS` of its own life, with every scripted change at its time. */
function live(
  script: readonly ScriptedChange[],
  pot: SimulatedPotState,
  lived: Lived,
  untilS: number,
): { readonly pot: SimulatedPotState; readonly lived: Lived } {
  const change = script[lived.changes]
  if (change === undefined || change.atS > untilS) {
    return {
      pot: stepPot(pot, Math.max(0, untilS - lived.s)),
      lived: { ...lived, s: Math.max(untilS, lived.s) },
    }
  }
  const before = stepPot(pot, Math.max(0, change.atS - lived.s))
  const after = stepPot(before, 0, actOf(change))
  const isPlugged = change.probe === undefined ? lived.isPlugged : change.probe !== 'unplugged'
  return live(
    script,
    after,
    { s: Math.max(change.atS, lived.s), changes: lived.changes + 1, isPlugged },
    untilS,
  )
}

function actOf(change: ScriptedChange): Parameters<typeof stepPot>[2] {
  const { dial, lid, goodsIn, goodsOut, topUp, probe } = change
  return {
    ...(dial === undefined ? {} : { dial }),
    ...(lid === undefined ? {} : { lid }),
    ...(goodsIn === undefined ? {} : { goodsIn }),
    ...(goodsOut === undefined ? {} : { goodsOut }),
    ...(topUp === undefined ? {} : { topUp }),
    ...(probe === 'in' || probe === 'out' ? { probe } : {}),
  }
}
