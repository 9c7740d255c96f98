import { CLAIM_KINDS } from '#core/bath/told-claim'
import type { ForecastRecord } from '#core/wire/burner'

/** How good one kind of forecast has been. `off`: the middle one's error; minutes for times, °C for temperatures. */
export interface RecordSummary {
  readonly kind: ForecastRecord['kind']
  readonly source: ForecastRecord['source']
  readonly count: number
  readonly inside: number
  readonly off: number
}

const SOURCES = ['live', 'replayed'] as const

/**
 * Only forecasts that were made with something learned; the guesses before that say nothing of the learning. What was
 * really said stands apart from what replay made up for a past that nobody watched.
 */
export const recordSummaries = (record: readonly ForecastRecord[]): readonly RecordSummary[] =>
  SOURCES.flatMap((source) => summariesOf(record.filter((r) => r.source === source && !r.isGuess)))

function summariesOf(record: readonly ForecastRecord[]): readonly RecordSummary[] {
  return CLAIM_KINDS.flatMap((kind) => {
    const some = record.filter((r) => r.kind === kind)
    if (some.length === 0) return []
    const off = some.map(errorOf).sort((a, b) => a - b)
    return [
      {
        kind,
        source: some[0]!.source,
        count: some.length,
        inside: some.filter(isInside).length,
        off: off[Math.floor(off.length / 2)]!,
      },
    ]
  })
}

export const isInside = ({ came, low90, high90 }: ForecastRecord): boolean => came >= low90 && came <= high90

/** A forecast of a temperature, not of a time. */
export const isTemp = (kind: ForecastRecord['kind']): boolean => kind === 'peak' || kind === 'drift'

/** Minutes for times, °C for temperatures; never below 0. */
export const errorOf = ({ kind, told, came }: ForecastRecord): number =>
  Math.abs(told - came) / (isTemp(kind) ? 1 : 60_000)
