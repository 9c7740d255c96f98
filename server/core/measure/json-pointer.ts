/** The value that a JSON Pointer names (RFC 6901 §4), or `undefined` when there is none. */
export function atPointer(document: unknown, pointer: string): unknown {
  if (pointer === '') return document
  if (!pointer.startsWith('/')) return undefined
  return pointer.slice(1).split('/').map(unescaped).reduce<unknown>(step, document)
}

/** `~1` stands for `/` and `~0` for `~`, in this order of taking them back. */
const unescaped = (token: string): string => token.replaceAll('~1', '/').replaceAll('~0', '~')

function step(value: unknown, token: string): unknown {
  if (Array.isArray(value))
    return /^(0|[1-9]\d{0,9})$/.test(token) ? (value[Number(token)] as unknown) : undefined
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, token)) return undefined
  return (value as Record<string, unknown>)[token]
}
