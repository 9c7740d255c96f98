import { dyeDay } from './watch-days.ts'
import {
  burnerComesOn,
  burnerLeftOnLow,
  driven,
  forecastError,
  noBurner,
  probeLifted,
  wrongBurner,
} from './watch-faults.ts'
import { night } from './watch-nights.ts'

/**
 * The measured report of the watch, on simulated pots with physics that the rules do not know
 * (`test/kit/rich-pot.ts`): `npm run bench:watch`, or with a number for how many seeds (30). Prints, asserts
 * nothing. Other seeds than these were used while the rules were written only where a fault was looked for.
 */
const SEEDS = Number(process.argv[2] ?? 30)
const seeds = Array.from({ length: SEEDS }, (_, i) => i + 100)

const known = (values: readonly (number | null)[]): number[] =>
  values.filter((v): v is number => v !== null && Number.isFinite(v)).sort((a, b) => a - b)

function line(name: string, goal: string, values: readonly (number | null)[], unit: string): void {
  const sorted = known(values)
  const at = (part: number) => sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))]
  const show = (v: number | undefined) => (v === undefined ? '–' : v.toFixed(unit === '%' ? 1 : 0))
  const spread = `median ${show(at(0.5))}, 10–90 % ${show(at(0.1))}…${show(at(0.9))}, worst ${show(sorted.at(-1))}, least ${show(sorted[0])} ${unit}`
  console.log(`${name.padEnd(46)} ${spread} (${sorted.length} of ${values.length}; goal ${goal})`)
}

const unexpected = (watch: ReturnType<typeof night>): readonly string[] =>
  watch.happenings.flatMap((h) => (h.kind === 'alarm' && h.change === 'raised' ? [h.alarm] : []))

console.log(`holdfast watch, ${SEEDS} seeds, node ${process.version}`)
for (const [name, lagS] of [
  ['lag of 12 s told', 12],
  ['lag of 12 s learned', null],
] as const)
  for (const share of [0.08, 0.3, 1]) {
    const runs = seeds.map((seed) => driven(seed, lagS, share))
    const what = `${name}, dial up ${share * 100} %`
    line(
      `ceiling: ${what}`,
      'median 15, worst 40',
      runs.map((r) => r.ceilingS),
      's',
    )
    line(
      `window: ${what}`,
      'worst 120',
      runs.map((r) => r.windowS),
      's',
    )
    line(
      `heading before: ${what}`,
      '120 in 90 %',
      runs.map((r) => r.leadS),
      's',
    )
    line(
      `the most that physics leaves: ${what}`,
      '–',
      runs.map((r) => r.mostLeadS),
      's',
    )
  }
line('probe lifted out', '20', seeds.map(probeLifted), 's')
line('burner on in a cool-down', '600', seeds.map(burnerComesOn), 's')
line('burner left on low in a cool-down, pot unknown', '–', seeds.map(burnerLeftOnLow), 'min')
line('no heat under the pot', '360', seeds.map(noBurner), 's')
line('wrong burner', '360', seeds.map(wrongBurner), 's')
for (const [what, isLearned] of [
  ['told after an hour', false],
  ['the same, the pot has cooled once before', true],
] as const) {
  const errors = seeds.map((seed) => forecastError(seed, isLearned))
  line(
    `remaining cool-down, ${what}`,
    'within 5',
    errors.map((e) => (e === null ? null : Math.abs(e) * 100)),
    '%',
  )
}
const days = seeds.map(dyeDay)
line(
  'hold, found against the bath',
  '20 s or 1 %',
  days.map((d) => Math.abs(d.foundInS - d.bathInS)),
  's',
)
line(
  "hold, found against the probe's own temperature",
  '20 s or 1 %',
  days.map((d) => Math.abs(d.foundInS - d.probeInS)),
  's',
)
const dayAlarms = days.flatMap((d) => unexpected(d.watch))
console.log(`${SEEDS} normal dye days: ${dayAlarms.length} alarms (goal 0) ${dayAlarms.join(' ')}`)
const nightAlarms = seeds.flatMap((seed) => unexpected(night(seed)))
console.log(`${SEEDS} normal nights: ${nightAlarms.length} alarms (goal 0) ${nightAlarms.join(' ')}`)
