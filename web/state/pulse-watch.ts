/**
 * Notices that the server has gone quiet. `heardMs`: when the last pulse came, `null` before the first
 * start. A page is told once when silence begins and once when it ends.
 */
export interface PulseWatch {
  readonly heardMs: number
  readonly silent: boolean
}

/** No pulse for so long is silence; the server sends one each second. */
export const SILENCE_MS = 5_000

export type PulseEvent = { readonly kind: 'pulse' | 'tick'; readonly atMs: number }

/** `atMs` from a monotonic clock. Pure. */
export function stepPulseWatch(watch: PulseWatch, event: PulseEvent): PulseWatch {
  switch (event.kind) {
    case 'pulse':
      return { heardMs: event.atMs, silent: false }
    case 'tick':
      return { ...watch, silent: event.atMs - watch.heardMs >= SILENCE_MS }
    default:
      return event.kind satisfies never
  }
}
