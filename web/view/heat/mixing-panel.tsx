import { useEffect, useState } from 'preact/hooks'
import type { BurnerPage, MixingAnswer } from '#core/wire/burner'
import { Slider } from '../part/slider.tsx'
import { usePage, useWords } from '../page-context.ts'

const START = { dryKg: 0, goodsC: 20, litres: 0, waterC: 15 }
const REST_MS = 120

/** What adding the goods or topping up will do. */
export function MixingPanel({ page, bathC }: { readonly page: BurnerPage; readonly bathC: number | null }) {
  const { w, f } = useWords()
  const { requests } = usePage()
  const { vessel, id } = page.pot
  const [draft, setDraft] = useState(() => ({ ...START, bathC: Math.round((bathC ?? 70) * 2) / 2 }))
  const [mixed, setMixed] = useState<MixingAnswer | null>(null)
  const isNothing = draft.dryKg === 0 && draft.litres === 0
  useEffect(() => {
    if (isNothing) return setMixed(null)
    let wanted = true
    const ask = async () => {
      const found = await requests.ask<MixingAnswer>('POST', `/api/pots/${encodeURIComponent(id)}/mixing`, {
        bathC: draft.bathC,
        ...(draft.dryKg === 0 ? {} : { goods: { dryKg: draft.dryKg, tempC: draft.goodsC } }),
        ...(draft.litres === 0 ? {} : { topUp: { litres: draft.litres, tempC: draft.waterC } }),
      })
      if (wanted && found.ok) setMixed(found.value)
    }
    const timer = setTimeout(() => void ask(), REST_MS)
    return () => {
      wanted = false
      clearTimeout(timer)
    }
  }, [id, JSON.stringify(draft)])
  const slider = (name: keyof typeof draft, label: string, text: string, max: number, step: number) => ({
    label,
    text,
    value: draft[name],
    range: { min: 0, max, step },
    onValue: (value: number) => setDraft({ ...draft, [name]: value }),
  })
  const most = Math.max(1, Math.round(vessel.litres / 2))
  const dryMost = Math.max(0.5, Math.round(vessel.litres / 5) / 2)
  return (
    <section class="panel">
      <h2>{w.heat.mixTitle}</h2>
      <p class="row-more">{w.heat.mixHelp}</p>
      <div class="slider-grid">
        <Slider {...slider('bathC', w.heat.mixBath, f.temp(draft.bathC), 100, 0.5)} />
        <Slider
          {...slider('dryKg', w.heat.mixDry, w.heat.kilograms(f.amount(draft.dryKg, 2)), dryMost, 0.05)}
        />
        <Slider {...slider('goodsC', w.heat.mixGoodsC, f.temp(draft.goodsC), 100, 0.5)} />
        <Slider {...slider('litres', w.heat.mixWater, w.heat.litresOf(f.amount(draft.litres)), most, 0.1)} />
        <Slider {...slider('waterC', w.heat.mixWaterC, f.temp(draft.waterC), 100, 0.5)} />
      </div>
      <p class="verdict" aria-live="polite">
        {mixed === null
          ? w.heat.mixNothing
          : mixed.mixedC <= mixed.bathC
            ? w.heat.mixed(f.temp(mixed.mixedC), f.drop(mixed.bathC - mixed.mixedC))
            : w.heat.mixedUp(f.temp(mixed.mixedC), f.drop(mixed.mixedC - mixed.bathC))}
      </p>
    </section>
  )
}
