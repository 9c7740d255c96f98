import { useState } from 'preact/hooks'
import type { PotRecord } from '#core/wire/records'
import type { ProbeInfo } from '../../state/requests.ts'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'
import { FindProbe } from './find-probe.tsx'
import { PotList } from './pot-list.tsx'
import { ProbeList } from './probe-list.tsx'
import { ProbeSources } from './probe-sources.tsx'

/** Looked at while somebody stands at the pots with a probe in the hand, ms. */
const AGAIN_MS = 2_000

export function ProbesPage() {
  const { w } = useWords()
  const probes = useAnswer<readonly ProbeInfo[]>('/api/probes', AGAIN_MS)
  const pots = useAnswer<readonly PotRecord[]>('/api/pots', AGAIN_MS)
  const [round, setRound] = useState(0)
  const again = () => {
    setRound(round + 1)
    probes.again()
    pots.again()
  }
  return (
    <div class="wide">
      <h1>{w.probe.title}</h1>
      <section class="panel">
        <h2>{w.probe.probes}</h2>
        <Show of={probes}>
          {(all) => <ProbeList probes={all} pots={pots.asked?.ok ? pots.asked.value : []} onChange={again} />}
        </Show>
        <FindProbe onChange={again} />
        <ProbeSources key={round} onChange={again} />
        <p class="caution">
          {w.probe.hangIt} {w.probe.electric}
        </p>
      </section>
      <section class="panel">
        <h2>{w.probe.pots}</h2>
        <Show of={pots}>{(all) => <PotList pots={all} onChange={again} />}</Show>
      </section>
    </div>
  )
}
