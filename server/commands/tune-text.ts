import type { TunedDial, Tuning } from '#core/bath/tune'
import type { AdvicePart, Missing } from '#core/bath/tune-advice'
import type { Ranged } from '#core/bath/advise'

/** The answer of `tune --json`, as `docs/heat.md` has it. */
export function tuneAsJson(tuning: Tuning): string {
  const { advice } = tuning
  return JSON.stringify({
    heatCapacityKJPerC: round(tuning.heatCapacityJPerC / 1000, 2),
    deadTimeS: round(tuning.deadTimeS, 0),
    lossWAtTarget: round(tuning.lossWAtTarget, 0),
    dials: tuning.dials.map(({ dial, watts, steady }) => ({
      dial,
      watts: round(watts, 0),
      steadyC: round(steady?.value ?? null, 1),
      steadyC90: rangeOf(steady, 1),
    })),
    advice: {
      holdDial: round(advice.hold?.value ?? null, 2),
      holdDial90: rangeOf(advice.hold, 2),
      heatDial: advice.heatDial,
      turnDownAtC: round(advice.turnDownAtC, 1),
      expectedPeakC: round(advice.expectedPeakC, 1),
      minutesToTarget: round(advice.toTargetS === null ? null : advice.toTargetS / 60, 1),
    },
  })
}

function round(value: number | null, digits: number): number | null {
  return value === null ? null : Number(value.toFixed(digits))
}

const rangeOf = (ranged: Ranged | null, digits: number) =>
  ranged === null ? null : [round(ranged.low90, digits), round(ranged.high90, digits)]

/** The same for a person. */
export function tuneAsText(tuning: Tuning, targetC: number): string {
  return [
    learnedLine(tuning),
    '',
    ...factLines(tuning, targetC),
    '',
    ...dialLines(tuning),
    '',
    ...adviceLines(tuning, targetC),
    '',
    CAUTION,
  ].join('\n')
}

const CAUTION = `This is advice from what was measured; the tool never switches heat and is no safety device.
Somebody stays with a burner that is on.`

function learnedLine({ misfitsC, belief }: Tuning): string {
  const told = misfitsC.filter((misfit) => misfit !== null)
  const name = belief.vessel.title ?? `a pot of ${belief.vessel.litres} litres`
  if (told.length === 0) return `Nothing was learned of ${name}: no trace is long enough.`
  const traces = told.length === 1 ? 'one trace' : `${told.length} traces`
  return `Learned of ${name} from ${traces}; the curve of the model passes the readings within ${Math.max(...told).toFixed(2)} °C.`
}

function factLines(tuning: Tuning, targetC: number): string[] {
  const { lid, roomC } = tuning.standing
  const judged = tuning.lidJudged ? ', as the losses look: no trace notes it' : ''
  return [
    `It holds         ${(tuning.heatCapacityJPerC / 1000).toFixed(1)} kJ for each °C`,
    `Heat comes late  ${orNot(tuning.deadTimeS, (s) => `by ${s.toFixed(0)} s`)}`,
    `It loses         ${orNot(tuning.lossWAtTarget, (w) => `${w.toFixed(0)} W`)} at ${targetC} °C (lid ${lid}${judged}; air ${roomC.toFixed(1)} °C)`,
  ]
}

const orNot = (value: number | null, say: (value: number) => string): string =>
  value === null ? 'not known yet' : say(value)

function dialLines({ dials }: Tuning): string[] {
  if (dials.length === 0) return ['No dial above 0 was noted in the traces.']
  return ['dial    into the water    settles at, nine times of ten between', ...dials.map(dialLine)]
}

function dialLine({ dial, watts, steady }: TunedDial): string {
  const power = orNot(watts, (w) => `${w.toFixed(0)} W`)
  const settles =
    steady === null
      ? 'not known yet'
      : `${steady.value.toFixed(1)} °C   ${steady.low90.toFixed(1)} … ${steady.high90.toFixed(1)}`
  return `${String(dial).padStart(4)}${power.padStart(18)}    ${settles}`
}

function adviceLines({ advice, standing }: Tuning, targetC: number): string[] {
  const { hold, heatDial, turnDownAtC, expectedPeakC, toTargetS } = advice
  if (hold === null) return [`No advice for ${targetC} °C yet.`]
  const holds = `${hold.value.toFixed(1)} (${hold.low90.toFixed(1)} … ${hold.high90.toFixed(1)})`
  if (turnDownAtC === null || expectedPeakC === null || toTargetS === null)
    return [`For ${targetC} °C: about ${holds} should hold it.`]
  return [
    `For ${targetC} °C, from ${standing.roomC.toFixed(0)} °C: heat at ${heatDial}; when the probe shows ${turnDownAtC.toFixed(1)} °C, turn down to about ${holds}.`,
    `It should be at ${targetC} °C after ${(toTargetS / 60).toFixed(0)} min, coast to about ${expectedPeakC.toFixed(1)} °C and hold.`,
  ]
}

/** Why a number is missing, in one sentence. */
export function missingSentence(missing: Missing, targetC: number): string {
  switch (missing.kind) {
    case 'no-trace':
      return 'no trace holds enough readings to learn from; it takes some minutes with a change of the dial'
    case 'unlike':
      return `a trace can't be understood: the curve of the model misses it by ${missing.misfitC.toFixed(1)} °C, so nothing was learned from it; was the dial noted each time it was turned`
    case 'no-heat':
      return "the dial that holds can't be told: no trace notes a dial above 0"
    case 'dead-time':
      return "how late the heat comes can't be told: no trace shows a change of the dial clearly"
    case 'loss':
      return `what the pot loses at ${targetC} °C can't be told: no trace shows it hot with the dial off or settled`
    case 'dial':
      return `the heat at dial ${missing.dial} can't be told: it was not on for long enough`
    case 'steady':
      return `where the bath settles at dial ${missing.dial} can't be told: the ${STEADY[missing.without]} not known well enough`
    case 'hold-uncertain':
      return `the dial that holds ${targetC} °C can't be told: it lies anywhere from ${missing.low90.toFixed(1)} to ${missing.high90.toFixed(1)}; note a low dial for half an hour`
    case 'too-weak':
      return `no dial holds ${targetC} °C: the burner is too weak for it with the lid as it is`
    case 'too-strong':
      return `no dial holds ${targetC} °C: the burner is too strong for it even at its lowest`
    case 'target-in-the-room':
      return `the target of ${targetC} °C is no warmer than the room, so it needs no heat`
    case 'target-boils':
      return `no dial holds ${targetC} °C: the water boils at ${missing.boilingC.toFixed(1)} °C`
    case 'heat-up':
      return `when to turn down for ${targetC} °C can't be told: no dial whose heat is known brings the bath there`
    case 'open':
      return `${OPEN[missing.what]} can't be told either`
    default:
      return missing satisfies never
  }
}

const STEADY = { loss: 'losses there are', heat: 'heat is' } as const

const OPEN: Readonly<Record<AdvicePart, string>> = {
  hold: 'the dial that holds',
  heatDial: 'the dial to heat at',
  turnDownAtC: 'when to turn down',
  expectedPeakC: 'how high the bath coasts',
  toTargetS: 'how long the heat-up takes',
}
