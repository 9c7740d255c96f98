import { type PotToday, TODAY } from './today.ts'

/** The simulated pots of the demo as entries of `probes` in the settings file. */
export function demoProbes(knobsOf: (probe: string) => string): readonly object[] {
  return TODAY.map((today, i) => demoProbe(today, i + 1, knobsOf(today.pot.probe)))
}

const demoProbe = ({ pot, fillC, script }: PotToday, seed: number, knobs: string) => ({
  name: pot.probe,
  kind: 'simulated',
  lagS: pot.lagS,
  vessel: pot.vessel,
  startC: fillC,
  dialCurve: pot.dialCurve,
  lossFactor: pot.lossFactor,
  script,
  knobs,
  seed,
})
