import { SAID_OF_PROBES } from './de-said-probe.ts'
import { SAID_BY_SERVER } from './de-said-server.ts'

const SAYINGS = [...SAID_BY_SERVER, ...SAID_OF_PROBES].map(
  ([english, german]) => [new RegExp(`^(?:${english.source})$`), german] as const,
)

/**
 * What the server, a bridge or the core says went wrong, in German. They speak English to programs and logs; a sentence
 * that isn't known here stays as it came, which is better than to lose it. A part of a sentence may be one itself.
 */
export function deSaid(sentence: string): string {
  const known = SAYINGS.find(([english]) => english.test(sentence))
  if (known === undefined) return sentence
  const [, ...parts] = known[0].exec(sentence)!
  return known[1].replaceAll(/\$(\d)/g, (_, no: string) => deSaid(commaIn(parts[Number(no) - 1] ?? '')))
}

const commaIn = (part: string): string => part.replace(/^(-?\d+)\.(\d+)$/, '$1,$2')
