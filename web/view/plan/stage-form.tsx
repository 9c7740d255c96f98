import { useState } from 'preact/hooks'
import type { Stage } from '#core/plan/plan'
import { FIELDS_OF, type NumberName, STAGE_NUMBERS, type StageDraft } from '../../state/plan-draft.ts'
import type { DraftProblems } from '../../state/plan-from-draft.ts'
import { LongField, SelectField, TextField } from '../part/field.tsx'
import { useWords } from '../page-context.ts'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'
import { AdditiveRows } from './additive-rows.tsx'

const KINDS: readonly Stage['kind'][] = ['hold', 'cool', 'soak', 'rest', 'keep-warm']

interface Props {
  readonly stage: StageDraft
  readonly no: number
  readonly count: number
  readonly problems: DraftProblems
  readonly onStage: (stage: StageDraft) => void
  readonly onMove: (to: number) => void
  readonly onRemove: () => void
}

/** One stage of a plan: what its kind asks for, and no more. */
export function StageForm(props: Props) {
  const { w } = useWords()
  const { stage, problems, onStage } = props
  const error = (field: string) => {
    const problem = problems[`${stage.key}.${field}`]
    return problem === undefined ? undefined : w.plan.problems[problem]
  }
  const parts = { stage, error, onStage }
  return (
    <fieldset class="stage-form">
      <legend class="visually-hidden">{w.plan.stage(props.no)}</legend>
      <header>
        <h2>{w.plan.stage(props.no)}</h2>
        <Movers {...props} />
      </header>
      <StageHead {...parts} />
      <StageNumbers {...parts} isOfMain={true} />
      {stage.kind === 'hold' && (
        <label class="check">
          <input
            type="checkbox"
            checked={stage.extraction}
            onChange={(e) => onStage({ ...stage, extraction: e.currentTarget.checked })}
          />
          {w.plan.extraction}
        </label>
      )}
      <AdditiveRows {...parts} />
      <StageMore {...parts} />
    </fieldset>
  )
}

interface PartProps {
  readonly stage: StageDraft
  readonly error: (field: string) => string | undefined
  readonly onStage: (stage: StageDraft) => void
}

function StageHead({ stage, error, onStage }: PartProps) {
  const { w } = useWords()
  return (
    <div class="field-grid">
      <TextField
        label={w.plan.stageTitle}
        value={stage.title}
        maxLength={200}
        error={error('title')}
        onValue={(title) => onStage({ ...stage, title })}
      />
      <SelectField
        label={w.plan.kind}
        value={stage.kind}
        options={KINDS.map((kind) => [kind, w.plan.kinds[kind]] as const)}
        onValue={(kind) => onStage({ ...stage, kind })}
      />
    </div>
  )
}

/** What a stage can do without: open where there is room, folded on a phone until it is wanted. */
function StageMore(props: PartProps) {
  const { w } = useWords()
  const { stage, error } = props
  const [isOpen, setOpen] = useState(() => matchMedia(ROOMY).matches)
  const names = FIELDS_OF[stage.kind].filter((field) => !isMain(field)).map(([name]) => name)
  const filled = [...names.map((name) => stage.numbers[name] ?? ''), stage.note, stage.cautions].filter(
    (text) => text !== '',
  ).length
  return (
    <details
      class="stage-more"
      open={isOpen || names.some((name) => error(name) !== undefined)}
      onToggle={(e) => setOpen(e.currentTarget.open)}
    >
      <summary>{w.plan.more(filled)}</summary>
      <StageNumbers {...props} isOfMain={false} />
      <StageNotes {...props} />
    </details>
  )
}

/** A ceiling can be left out, but not for being out of sight. */
const isMain = ([name, must]: readonly [NumberName, 'must' | 'may']): boolean =>
  must === 'must' || name === 'ceiling'

/** A tablet and wider. */
const ROOMY = '(min-width: 44rem)'

function StageNumbers({ stage, error, onStage, isOfMain }: PartProps & { readonly isOfMain: boolean }) {
  const { w, f } = useWords()
  const fields = FIELDS_OF[stage.kind].filter((field) => isMain(field) === isOfMain)
  if (fields.length === 0) return null
  return (
    <div class="field-grid">
      {fields.map(([name, must]) => (
        <TextField
          key={name}
          kind="number"
          label={w.plan.numbers[name]}
          unit={unitOf(name, w, f)}
          help={must === 'may' ? (name === 'outBy' ? w.plan.outByHelp : w.plan.optional) : undefined}
          value={stage.numbers[name] ?? ''}
          error={error(name)}
          onValue={(value) => onStage({ ...stage, numbers: { ...stage.numbers, [name]: value } })}
        />
      ))}
    </div>
  )
}

function StageNotes({ stage, onStage }: PartProps) {
  const { w } = useWords()
  return (
    <>
      <TextField
        label={w.plan.note}
        help={w.plan.optional}
        value={stage.note}
        maxLength={5000}
        onValue={(note) => onStage({ ...stage, note })}
      />
      <LongField
        label={w.plan.cautions}
        help={w.plan.cautionsHelp}
        value={stage.cautions}
        onValue={(cautions) => onStage({ ...stage, cautions })}
      />
    </>
  )
}

function unitOf(name: NumberName, w: Catalogue, f: Format): string {
  const sort = STAGE_NUMBERS[name]
  if (sort === 'C') return f.unit
  if (sort === 'rate') return w.plan.unitRate(f.unit)
  if (sort === 'ph') return ''
  return name === 'liquorRatio' ? w.plan.unitRatio : w.plan.unitMin
}

function Movers(props: {
  readonly no: number
  readonly count: number
  readonly onMove: (to: number) => void
  readonly onRemove: () => void
}) {
  const { w } = useWords()
  const { no, count } = props
  return (
    <div class="buttons">
      <button
        type="button"
        class="button quiet"
        aria-label={w.plan.moveUp(no)}
        disabled={no === 1}
        onClick={() => props.onMove(no - 2)}
      >
        ↑
      </button>
      <button
        type="button"
        class="button quiet"
        aria-label={w.plan.moveDown(no)}
        disabled={no === count}
        onClick={() => props.onMove(no)}
      >
        ↓
      </button>
      <button
        type="button"
        class="button quiet"
        aria-label={w.plan.removeStage(no)}
        disabled={count === 1}
        onClick={props.onRemove}
      >
        ×
      </button>
    </div>
  )
}
