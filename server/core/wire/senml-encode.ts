import type { Sample, Serial } from '../measure/reading.ts'

/** A sample on its way to the server. */
export interface SerialSample {
  readonly sample: Sample
  readonly serial: Serial
}

/** A SenML pack of one bridge's samples: base name, unit and time in the first record. Empty for none. */
export function encodeSenml(bridge: string, rows: readonly SerialSample[]): readonly object[] {
  const baseMs = rows[0]?.sample.atMs ?? 0
  return rows.map(({ sample, serial }, i) => ({
    ...(i === 0 ? { bn: `${bridge}/`, bu: 'Cel', bt: baseMs / 1000 } : {}),
    n: sample.probe,
    t: (sample.atMs - baseMs) / 1000,
    ...(sample.kind === 'temp' ? { v: sample.rawC } : { vs: faultText(sample) }),
    boot: serial.boot,
    seq: serial.seq,
  }))
}

const faultText = (s: Extract<Sample, { kind: 'fault' }>): string =>
  s.found === '' ? s.fault : `${s.fault}: ${s.found}`
