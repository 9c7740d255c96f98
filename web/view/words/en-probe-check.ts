/** Checks and corrections of probes, in English. */
export const enProbeCheck = {
  check: 'Check',
  checkTitle: (probe: string) => `Check ${probe}`,
  checkHelp:
    'Two checks far apart are best: ice water, then boiling water. The check waits until the reading stands still. Lift the probe out of its bath first and note it.',
  places: { ice: 'Ice water', boiling: 'Boiling water', reference: 'Beside a thermometer you trust' },
  placeHelp: {
    ice: 'Pack crushed ice, fill its gaps with water, wait a few minutes. The tip goes into the middle and touches no wall. A true probe says 0 °C, 32 °F.',
    boiling:
      'A rolling boil, the tip in the water and off the base. Steam scalds: keep hand and cable out of it. The value is the boiling point at the studio’s height.',
    reference:
      'Both tips side by side in a stirred pot that is neither heated nor cooled. Type what the other one says.',
  },
  expected: 'It should say',
  checkStart: 'The probe is in: begin',
  checkGiveUp: 'Give up this check',
  waitsFor: {
    readings: 'Waiting for readings of this probe.',
    time: 'Leave it in: two minutes at least.',
    steadiness: 'Waiting until the reading stands still.',
  },
  saysNow: (temp: string) => `It says ${temp} now, uncorrected.`,
  settled: (raw: string, expected: string) => `Settled: it says ${raw} where ${expected} is right.`,
  checkRefused: (why: string) => `This check does not count: ${why}.`,
  checksSoFar: 'Checks so far',
  saveChecks: (n: number): string =>
    n === 1 ? 'Use it: shift all readings by this' : 'Use them: draw the line',
  correct: 'Correction',
  correctTitle: (probe: string) => `Correction of ${probe}`,
  correctHelp:
    'For a probe that was checked elsewhere. Readings that are stored keep what they were stored with.',
  correctKind: 'What is known',
  correctKinds: { offset: 'One difference', 'two-point': 'Two points' },
  offset: 'Add to what it says',
  lowRaw: 'Low: it says',
  lowTrue: 'Low: true is',
  highRaw: 'High: it says',
  highTrue: 'High: true is',
  validFrom: 'Holds from',
  validFromHelp: 'Left empty: from now on',
  note: 'How it was found',
  corrections: 'Corrections so far',
  correctionMade: (what: string, from: string, who: string, made: string) =>
    `${what}, from ${from}; ${who === '' ? 'entered' : `by ${who}`} ${made}`,
  correctionLine: 'line through several points',
  saysWhere: (raw: string, expected: string) => `${raw} where ${expected} is right`,
}
