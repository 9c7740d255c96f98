/** A rhythm of our own making: notes in a bar that is played once or over and over. */
export interface Rhythm {
  readonly lengthS: number
  readonly notes: readonly Note[]
}

interface Note {
  readonly atS: number
  readonly lengthS: number
  readonly hz: number
}

const note = (atS: number, lengthS: number, hz: number): Note => ({ atS, lengthS, hz })

/**
 * The more pressing, the faster and the higher; told apart by rhythm alone, so that small speakers, a
 * running tap and poor hearing for high tones matter less. All notes lie between 300 and 1500 Hz.
 */
export const RHYTHMS = {
  /** Two runs of three rising notes, a breath, again. */
  'at-once': {
    lengthS: 1.8,
    notes: [0, 0.6].flatMap((s) => [
      note(s, 0.16, 740),
      note(s + 0.17, 0.16, 988),
      note(s + 0.34, 0.2, 1319),
    ]),
  },
  /** A slow see-saw that no bath makes: the watch itself is gone. */
  'server-silent': {
    lengthS: 2.4,
    notes: [note(0, 0.55, 330), note(0.6, 0.55, 466), note(1.2, 0.55, 330)],
  },
  /** Two bells going up. */
  soon: { lengthS: 1.6, notes: [note(0, 0.5, 587), note(0.45, 0.9, 784)] },
  /** One soft bell. */
  notice: { lengthS: 1, notes: [note(0, 0.9, 659)] },
} as const satisfies Readonly<Record<string, Rhythm>>

export type RhythmName = keyof typeof RHYTHMS

/** Rises and falls softly, so that no note clicks, s. */
const EDGE_S = 0.012

/** One bar as samples between −1 and 1. */
export function renderRhythm(rhythm: Rhythm, sampleRate: number): Float32Array<ArrayBuffer> {
  const samples = new Float32Array(Math.ceil(rhythm.lengthS * sampleRate))
  for (const { atS, lengthS, hz } of rhythm.notes) {
    const start = Math.round(atS * sampleRate)
    const count = Math.min(Math.round(lengthS * sampleRate), samples.length - start)
    for (let i = 0; i < count; i += 1) {
      const s = i / sampleRate
      const edge = Math.min(1, s / EDGE_S, (lengthS - s) / EDGE_S)
      const bell = Math.exp((-1.6 * s) / lengthS)
      const wave = Math.sin(2 * Math.PI * hz * s) + 0.35 * Math.sin(4 * Math.PI * hz * s)
      samples[start + i] = samples[start + i]! + 0.7 * edge * bell * wave
    }
  }
  return samples.map((v) => Math.max(-1, Math.min(1, v)))
}
