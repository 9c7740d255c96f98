import { useState } from 'preact/hooks'
import type { BurnerKind, Vessel } from '#core/bath/vessel'
import { readNumber } from '#core/measure/read-number'
import type { PotRecord } from '#core/wire/records'
import { usePage, useWords } from '../page-context.ts'

/** As typed. */
export interface PotTexts {
  readonly potTitle: string
  readonly litres: string
  readonly dialMax: string
  readonly diameter: string
  readonly ratedW: string
}

/** A pot while it is typed. */
export interface PotDraft {
  readonly texts: PotTexts
  readonly burner: BurnerKind | ''
  readonly change: (part: Partial<PotTexts>) => void
  readonly setBurner: (kind: BurnerKind | '') => void
  /** What is wrong with a field, once saving was tried. */
  readonly wrong: Readonly<Partial<Record<keyof PotTexts, string | undefined>>>
  readonly refusal: string | null
  readonly save: () => Promise<void>
}

export function usePotDraft(pot: PotRecord | null, onDone: () => void): PotDraft {
  const { w, f } = useWords()
  const { requests } = usePage()
  const vessel = pot?.vessel ?? null
  const [texts, setTexts] = useState<PotTexts>({
    potTitle: pot?.title ?? '',
    litres: vessel === null ? '' : plain(f.volumeOf(vessel.litres)),
    dialMax: text(vessel?.burner.dialMax ?? 10),
    diameter: text(vessel?.diameterCm),
    ratedW: text(vessel?.burner.ratedW),
  })
  const [burner, setBurner] = useState<BurnerKind | ''>(vessel?.burner.kind ?? '')
  const [refusal, setRefusal] = useState<string | null>(null)
  const [tried, setTried] = useState(false)
  const positive = (typed: string) =>
    (readNumber(typed) ?? 0) > 0 ? undefined : w.plan.problems['must-be-positive']
  const wrong = {
    potTitle: texts.potTitle.trim() === '' ? w.plan.problems['needs-text'] : undefined,
    litres: positive(texts.litres),
    dialMax: positive(texts.dialMax),
  }

  async function save(): Promise<void> {
    setTried(true)
    if (wrong.potTitle || wrong.litres || wrong.dialMax) return
    const isAsRead = vessel !== null && texts.litres === plain(f.volumeOf(vessel.litres))
    const litres = isAsRead ? vessel.litres : rounded(f.litresOf(readNumber(texts.litres)!))
    const body = { title: texts.potTitle.trim(), vessel: vesselOf(vessel, texts, litres, burner) }
    const done =
      pot === null
        ? await requests.ask('POST', '/api/pots', body)
        : await requests.ask('PUT', `/api/pots/${encodeURIComponent(pot.id)}`, body)
    if (done.ok) onDone()
    else setRefusal(done.why)
  }
  const change = (part: Partial<PotTexts>) => setTexts({ ...texts, ...part })
  return { texts, burner, change, setBurner, wrong: tried ? wrong : {}, refusal, save }
}

/** Values that the form doesn't show are kept. */
function vesselOf(before: Vessel | null, texts: PotTexts, litres: number, burner: BurnerKind | ''): object {
  const { diameterCm: _, ...kept } = before ?? {}
  return {
    ...kept,
    litres,
    ...optional('diameterCm', texts.diameter),
    burner: {
      dialMax: readNumber(texts.dialMax),
      ...(burner === '' ? {} : { kind: burner }),
      ...optional('ratedW', texts.ratedW),
    },
  }
}

const text = (value: number | undefined): string => (value === undefined ? '' : String(value))
const rounded = (litres: number): number => Math.round(litres * 1000) / 1000
const plain = (volume: number): string => String(Math.round(volume * 100) / 100)

/** What is no number goes to the server as it was typed: its sentence says what is allowed. */
const optional = (name: string, typed: string): object =>
  typed.trim() === '' ? {} : { [name]: readNumber(typed) ?? typed }
