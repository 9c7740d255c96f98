/** RFC 8428 §4.5.1: the characters of a name; it starts with a letter or a digit. */
const NAME = /^[A-Za-z0-9][A-Za-z0-9\-:./_]{0,199}$/

/** A probe, and the bridge that it hangs on; `null` for a device's own `urn:…`. */
export interface SenmlName {
  readonly bridge: string | null
  readonly probe: string
}

/** Reads the name of each record; a pack is of few probes, so each is read once, and is one string from here on. */
export function nameReader(): (bn: string, n: string | undefined) => SenmlName | null {
  let ofBase = ''
  let known = new Map<string, SenmlName | null>()
  return (bn, n = '') => {
    if (bn !== ofBase) {
      ofBase = bn
      known = new Map()
    }
    const before = known.get(n)
    if (before !== undefined) return before
    const name = parseName(bn + n)
    known.set(n, name)
    return name
  }
}

function parseName(name: string): SenmlName | null {
  if (!NAME.test(name)) return null
  if (name.startsWith('urn:')) return name.length > 'urn:'.length ? { bridge: null, probe: name } : null
  const slash = name.indexOf('/')
  if (slash < 1 || slash === name.length - 1) return null
  return { bridge: name.slice(0, slash), probe: name.slice(slash + 1) }
}
