import { ALARM_NAMES, type AlarmName } from '#core/plan/alarm-names'
import { ALARM_DEFAULTS } from '#core/watch/alarm-defaults'
import { mayBeShelved } from '#core/watch/alarm-shelf'
import { wordsOf } from '#core/words/words-of'
import { type AlarmDraft, ALARM_NUMBERS, type AlarmNumber, newAlarm } from '../../state/alarm-draft.ts'
import type { DraftProblems } from '../../state/plan-from-draft.ts'
import { SelectField, TextField } from '../part/field.tsx'
import { useWords } from '../page-context.ts'

/** Alarms that this plan sets otherwise than usual; most plans have none. */
export function AlarmRows(props: {
  readonly alarms: readonly AlarmDraft[]
  readonly problems: DraftProblems
  readonly onAlarms: (alarms: readonly AlarmDraft[]) => void
}) {
  const { w, f } = useWords()
  const { alarms, onAlarms } = props
  const names = wordsOf(f.person.language).alarmNames
  const free = ALARM_NAMES.filter((name) => alarms.every((alarm) => alarm.name !== name))
  return (
    <details class="panel" open={alarms.length > 0}>
      <summary>{w.plan.alarms.title}</summary>
      <p class="row-more">{w.plan.alarms.help}</p>
      {alarms.map((alarm) => (
        <AlarmRow
          key={alarm.name}
          alarm={alarm}
          problems={props.problems}
          onAlarm={(next) => onAlarms(alarms.map((one) => (one.name === next.name ? next : one)))}
          onRemove={() => onAlarms(alarms.filter((one) => one !== alarm))}
        />
      ))}
      <SelectField<AlarmName | ''>
        label={w.plan.alarms.add}
        value=""
        options={[['', w.plan.choose], ...free.map((name) => [name, names[name]] as const)]}
        onValue={(name) => name !== '' && onAlarms([...alarms, newAlarm(name)])}
      />
    </details>
  )
}

function AlarmRow(props: {
  readonly alarm: AlarmDraft
  readonly problems: DraftProblems
  readonly onAlarm: (alarm: AlarmDraft) => void
  readonly onRemove: () => void
}) {
  const { w, f } = useWords()
  const { alarm, onAlarm } = props
  const name = wordsOf(f.person.language).alarmNames[alarm.name]
  const words = w.plan.alarms
  return (
    <fieldset class="alarm-row">
      <legend>{name}</legend>
      <div class="field-grid">
        {(Object.keys(ALARM_NUMBERS) as AlarmNumber[]).map((field) => (
          <AlarmNumberField key={field} {...props} field={field} />
        ))}
        {mayBeShelved(alarm.name) && (
          <SelectField
            label={words.service}
            value={alarm.service}
            options={(['usual', 'in', 'out'] as const).map((one) => [one, words.services[one]] as const)}
            onValue={(service) => onAlarm({ ...alarm, service })}
          />
        )}
      </div>
      <button type="button" class="button quiet" onClick={props.onRemove}>
        {words.remove(name)}
      </button>
    </fieldset>
  )
}

function AlarmNumberField(props: {
  readonly alarm: AlarmDraft
  readonly field: AlarmNumber
  readonly problems: DraftProblems
  readonly onAlarm: (alarm: AlarmDraft) => void
}) {
  const { w, f } = useWords()
  const { alarm, field } = props
  const problem = props.problems[`alarms.${alarm.name}.${field}`]
  const usual = ALARM_DEFAULTS[alarm.name]
  const usualText = {
    onDelayS: `${usual.onDelayMs / 1000} s`,
    offDelayS: `${usual.offDelayMs / 1000} s`,
    deadbandC: f.drop(usual.deadbandC),
  }
  return (
    <TextField
      kind="number"
      label={w.plan.alarms.numbers[field]}
      unit={field === 'deadbandC' ? f.unit : 's'}
      help={w.plan.alarms.usual(usualText[field])}
      value={alarm.numbers[field]}
      error={problem && w.plan.problems[problem]}
      onValue={(value) => props.onAlarm({ ...alarm, numbers: { ...alarm.numbers, [field]: value } })}
    />
  )
}
