import { useState } from 'preact/hooks'
import { Dialog } from '../part/dialog.tsx'
import { useWords } from '../page-context.ts'
import { PhotoForm } from './photos-part.tsx'
import { RecordForm } from './record-form.tsx'
import type { RecordNames } from './record-words.ts'
import { useAddLine } from './use-add-line.ts'

const KINDS = ['ph', 'check', 'note', 'photo'] as const
type Kind = (typeof KINDS)[number]

interface Props {
  readonly batchId: number
  readonly stages: RecordNames['stages']
  /** The stage that runs: filled in beforehand. */
  readonly stageId: string | null
  readonly onNoted?: () => void
}

/** Large buttons for what is measured or seen beside the bath. */
export function NoteButtons(props: Props) {
  const { w } = useWords()
  const [open, setOpen] = useState<Kind | null>(null)
  const done = () => setOpen(null)
  return (
    <div class="act-grid" role="group" aria-label={w.record.now.notes}>
      {KINDS.map((kind) => (
        <button key={kind} type="button" class="button act" onClick={() => setOpen(kind)}>
          {w.record.kinds[kind]}
        </button>
      ))}
      {open !== null && (
        <Dialog title={w.record.kinds[open]} onClose={done}>
          {open === 'photo' ? (
            <PhotoForm
              batchId={props.batchId}
              onAdded={() => {
                props.onNoted?.()
                done()
              }}
            />
          ) : (
            <NoteForm {...props} kind={open} onDone={done} />
          )}
        </Dialog>
      )}
    </div>
  )
}

function NoteForm(props: Props & { readonly kind: Exclude<Kind, 'photo'>; readonly onDone: () => void }) {
  const add = useAddLine(props.batchId)
  const { kind } = props
  return (
    <RecordForm
      kind={kind}
      names={{ batches: [], stages: props.stages }}
      before={props.stageId === null ? {} : { stageId: props.stageId }}
      isNew={true}
      onSave={async (body, atMs) => {
        const added = await add({ kind, body, ...(atMs === undefined ? {} : { atMs }) })
        if (added) props.onNoted?.()
        return added
      }}
      onDone={props.onDone}
    />
  )
}
