import { usePage, useWords } from '../page-context.ts'
import { NoticeList } from './notice-list.tsx'
import { PotWhole } from './pot-whole.tsx'

export function PotPage({ potId }: { readonly potId: string }) {
  const { w } = useWords()
  const pots = usePage().state.stove.value.pots
  if (pots === null) return <p class="hint">{w.stove.connecting}</p>
  const pot = pots.find((p) => p.potId === potId)
  if (pot === undefined) return <p class="hint">{w.shell.missingPot(potId)}</p>
  return (
    <>
      <PotWhole pot={pot} />
      <NoticeList potId={potId} />
    </>
  )
}
