import type { PotRecord } from '#core/wire/records'
import type { ProbeInfo } from '../../state/requests.ts'
import { SelectField } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'

/** Hangs a probe into a pot from now on, or takes it out; what was read before stays where it was. */
export function HangProbe(props: {
  readonly probe: ProbeInfo
  readonly pots: readonly PotRecord[]
  readonly onChange: () => void
}) {
  const { w } = useWords()
  const { requests, state } = usePage()
  const { probe } = props
  async function hang(potId: string): Promise<void> {
    const to = potId === '' ? probe.potId : potId
    if (to === null) return
    const path = `/api/pots/${encodeURIComponent(to)}/probe`
    const done = await requests.ask('PUT', path, { probe: potId === '' ? null : probe.name })
    if (done.ok) props.onChange()
    else state.refusal.value = done.why
  }
  return (
    <SelectField
      label={w.probe.hangIn(probe.title)}
      value={probe.potId ?? ''}
      options={[['', w.probe.loose], ...props.pots.map((pot) => [pot.id, pot.title] as const)]}
      onValue={(potId) => void hang(potId)}
    />
  )
}
