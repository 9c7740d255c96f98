import { correctionAt } from '#core/measure/correction'
import type { ProbeReport } from '#core/wire/bridge-link'
import type { ProbeAnswer } from '#core/wire/api-probes'
import type { ProbeRecord } from '../../store/probes.ts'
import { probeManner } from '../intake/probe-manner.ts'
import type { Studio } from '../studio.ts'

/** A bridge hears of a change within this, ms. */
const UNDER_WAY_MS = 60_000

/** Every probe that was heard of or is set, and was not taken away, by name. */
export async function probeList(studio: Studio): Promise<readonly ProbeAnswer[]> {
  const records = new Map((await studio.store.probes.list()).map((p) => [p.name, p]))
  const set = studio.bridges.probeSettings().map((p) => p.name)
  const seen = [...records.values()].filter((record) => !isRemoved(studio, record)).map((p) => p.name)
  return [...new Set([...seen, ...set])]
    .sort()
    .map((name) => probeAnswer(studio, name, records.get(name) ?? null))
}

/** Taken off the list and not heard of since; its last readings may still have been under way. */
function isRemoved({ probes, stove }: Studio, { name, removedMs }: ProbeRecord): boolean {
  if (removedMs === null || stove.all.some(({ pot }) => pot.probe === name)) return false
  return (probes.last(name)?.reading.atMs ?? 0) <= removedMs + UNDER_WAY_MS
}

function probeAnswer(studio: Studio, name: string, record: ProbeRecord | null): ProbeAnswer {
  const heard = studio.probes.last(name)
  const nowMs = studio.clock.nowMs()
  const setting = studio.bridges.probeSettings().find((p) => p.name === name) ?? null
  const report = studio.bridges.report(name)
  return {
    name,
    title: setting?.title ?? name,
    tempC: heard?.tempC ?? null,
    atMs: heard?.tempAtMs ?? null,
    ageMs: heard === null || heard.tempAtMs === null ? null : Math.max(0, nowMs - heard.tempAtMs),
    verdict:
      heard === null ? null : heard.reading.kind === 'fault' ? heard.reading.fault : heard.reading.verdict,
    kind: setting?.kind ?? null,
    ...fromReport(report),
    setting: setting === null ? null : studio.bridges.isInFile(name) ? 'file' : 'page',
    accepted: setting !== null || (record?.accepted ?? false),
    potId: studio.stove.all.find(({ pot }) => pot.probe === name)?.pot.id ?? null,
    ...probeManner(studio.probes.recent(name)),
    lagS: setting?.lagS ?? null,
    correction: correctionOf(studio, name, nowMs),
  }
}

const fromReport = (report: ProbeReport | null) => ({
  place: report?.where ?? null,
  state: report?.state ?? null,
  sentence: report?.sentence ?? null,
  battery01: report === null || report.batteryPercent === null ? null : report.batteryPercent / 100,
})

function correctionOf(studio: Studio, name: string, nowMs: number): ProbeAnswer['correction'] {
  const correction = correctionAt(studio.beliefs.correctionsOf(name), nowMs)
  if (correction === null) return null
  const { kind, fromMs } = correction
  const sign = kind === 'offset' && correction.offsetC > 0 ? '+' : ''
  const text =
    kind === 'offset' ? `${sign}${correction.offsetC} °C` : kind === 'two-point' ? 'two points' : 'line'
  return { text, kind, offsetC: kind === 'offset' ? correction.offsetC : null, fromMs }
}
