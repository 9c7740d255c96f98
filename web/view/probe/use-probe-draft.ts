import { useState } from 'preact/hooks'
import {
  EMPTY_PROBE,
  type ProbeEntry,
  type ProbeTexts,
  probeEntry,
  textsOf,
} from '../../state/probe-draft.ts'
import { ADDABLE_KINDS, type AddableKind } from '../../state/probe-fields.ts'
import { usePage, useWords } from '../page-context.ts'
import { lineGuess } from './line-guess.ts'

/** Something that was found, or an entry that is there; `sample`: what was last heard. */
export type ProbeFormStart =
  | { readonly kind: AddableKind; readonly where: string; readonly sample?: string | null }
  | { readonly name: string; readonly entry: ProbeEntry; readonly hasPassword: boolean }

/** What is typed of a probe's settings, as a form or as text, and keeping it. */
export interface ProbeDraft {
  /** `null`: a kind that has no form. */
  readonly kind: AddableKind | null
  readonly texts: ProbeTexts
  /** The entry as text; `null` while the form is used. */
  readonly typed: string | null
  /** Why it was not kept. */
  readonly refusal: string | null
  readonly setKind: (kind: AddableKind) => void
  readonly setTexts: (texts: ProbeTexts) => void
  readonly setTyped: (text: string) => void
  /** From form to text and back. */
  readonly toggleText: () => void
  readonly save: () => Promise<void>
}

export function useProbeDraft(start: ProbeFormStart, onSaved: () => void): ProbeDraft {
  const { w } = useWords()
  const { requests } = usePage()
  const before = 'entry' in start ? start.entry : undefined
  const [kind, setKind] = useState(kindOf(start))
  const [texts, setTexts] = useState(textsAtStart(start))
  const [typed, setTyped] = useState(kind === null ? asText(before ?? {}) : null)
  const [refusal, setRefusal] = useState<string | null>(null)

  async function save(): Promise<void> {
    const entry = typed === null ? probeEntry(kind!, texts, before) : fromText(typed)
    if (entry === null) return setRefusal(w.probe.noJson)
    const done = await ('name' in start
      ? requests.ask('PUT', `/api/probe-settings/${encodeURIComponent(start.name)}`, entry)
      : requests.ask('POST', '/api/probe-settings', entry))
    if (done.ok) onSaved()
    else setRefusal(done.why)
  }

  function toggleText(): void {
    if (kind !== null) setTyped(typed === null ? asText(probeEntry(kind, texts, before)) : null)
  }

  return { kind, texts, typed, refusal, setKind, setTexts, setTyped, toggleText, save }
}

/** `null`: a kind that has no form. */
function kindOf(start: ProbeFormStart): AddableKind | null {
  const kind = 'entry' in start ? start.entry['kind'] : start.kind
  return ADDABLE_KINDS.find((k) => k === kind) ?? null
}

function textsAtStart(start: ProbeFormStart): ProbeTexts {
  if ('entry' in start) return textsOf(start.entry)
  const texts = { ...EMPTY_PROBE, line: lineGuess(start.sample ?? null) }
  switch (start.kind) {
    case 'mqtt':
      return { ...texts, topic: start.where }
    case 'one-wire-files':
      return { ...texts, device: start.where }
    default:
      return { ...texts, path: start.where }
  }
}

const asText = (entry: ProbeEntry): string => JSON.stringify(entry, null, 2)

function fromText(text: string): ProbeEntry | null {
  try {
    return JSON.parse(text) as ProbeEntry
  } catch {
    return null
  }
}
