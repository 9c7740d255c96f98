/** The words of the trace file's `event` column: what a person did or noted at a pot. */
export type BathEvent =
  | { readonly kind: 'stage'; readonly stageId: string }
  | { readonly kind: 'goods-in' }
  | { readonly kind: 'goods-out' }
  | { readonly kind: 'dial'; readonly dial: number }
  | { readonly kind: 'lid'; readonly lid: 'on' | 'off' }
  | { readonly kind: 'stir' }
  | { readonly kind: 'top-up' }
  | { readonly kind: 'probe-moved' }
  | { readonly kind: 'end' }

/** Why a word was not understood, in one sentence for the person who wrote it. */
export type ParsedEvent =
  | { readonly ok: true; readonly event: BathEvent }
  | { readonly ok: false; readonly why: string }

const PLAIN = ['goods-in', 'goods-out', 'stir', 'top-up', 'probe-moved', 'end'] as const

/** One word of the trace file → event. Case and spelling as in `docs/replay.md`; nothing is guessed. */
export function parseEvent(word: string): ParsedEvent {
  const plain = PLAIN.find((name) => name === word)
  if (plain !== undefined) return { ok: true, event: { kind: plain } }
  const colon = word.indexOf(':')
  const head = colon < 0 ? word : word.slice(0, colon)
  const tail = colon < 0 ? '' : word.slice(colon + 1)
  if (head === 'stage' && tail !== '') return { ok: true, event: { kind: 'stage', stageId: tail } }
  if (head === 'lid' && (tail === 'on' || tail === 'off'))
    return { ok: true, event: { kind: 'lid', lid: tail } }
  if (head === 'dial') return parseDial(word, tail)
  return { ok: false, why: `the event "${word}" is not known; allowed are ${ALLOWED}` }
}

function parseDial(word: string, tail: string): ParsedEvent {
  const dial = /^\d+(\.\d+)?$/.test(tail) ? Number(tail) : Number.NaN
  if (!Number.isFinite(dial))
    return { ok: false, why: `"${word}" needs a number that is 0 or more, as in dial:3.5` }
  return { ok: true, event: { kind: 'dial', dial } }
}

const ALLOWED =
  'stage:<id>, goods-in, goods-out, dial:<number>, lid:on, lid:off, stir, top-up, probe-moved and end'

/** Event → its word in the trace file; the inverse of `parseEvent`. */
export function eventWord(event: BathEvent): string {
  switch (event.kind) {
    case 'stage':
      return `stage:${event.stageId}`
    case 'dial':
      return `dial:${event.dial}`
    case 'lid':
      return `lid:${event.lid}`
    default:
      return event.kind
  }
}
