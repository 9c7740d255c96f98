import { useState } from 'preact/hooks'
import type { LineOf, RecordLine } from '#core/batch/record-line'
import { shrinkPhoto } from '../../device/shrink-photo.ts'
import { Field, SelectField } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'
import { PhotoPicker } from './photo-picker.tsx'
import { type BatchWithEntries, standingOf } from './record-lines.ts'
import { LineRow } from './record-line.tsx'
import { choiceWord } from './record-words.ts'
import { useAddLine } from './use-add-line.ts'

const OF = ['dry', 'bath', 'wet', 'other'] as const
type Of = (typeof OF)[number]

/** Photos of a batch: taken or chosen, shown, and read for their colour. */
export function PhotosPart(props: {
  readonly batch: BatchWithEntries
  readonly lines: readonly RecordLine[]
  readonly onChange: () => void
}) {
  const { w } = useWords()
  const add = useAddLine(props.batch.id)
  const [reading, setReading] = useState<string | null>(null)
  const photos = standingOf(props.lines, 'photo')
  return (
    <section class="panel" aria-label={w.record.photos}>
      <h2>{w.record.photos}</h2>
      <p class="row-more">{w.record.photoHelp}</p>
      <PhotoForm batchId={props.batch.id} onAdded={props.onChange} />
      <ul class="photos">
        {photos.map((line) => (
          <LineRow
            key={line.id}
            line={line}
            kindWord={w.record.kinds.photo}
            onTakeBack={() =>
              void add({ kind: 'withdrawn', body: {}, replaces: line.id }).then(props.onChange)
            }
          >
            <PhotoShown line={line} />
            <button type="button" class="button" onClick={() => setReading(line.body.fileId)}>
              {w.record.readColour}
            </button>
          </LineRow>
        ))}
      </ul>
      {reading !== null && (
        <PhotoPicker
          fileId={reading}
          onClose={() => setReading(null)}
          onLab={async (lab) => {
            if (await add({ kind: 'result', body: { lab, labFrom: 'photo' } })) props.onChange()
            setReading(null)
          }}
        />
      )}
    </section>
  )
}

function PhotoShown({ line }: { readonly line: LineOf<'photo'> }) {
  const { w, f } = useWords()
  const of = choiceWord(line.body.of, w)
  return (
    <a href={`/api/photos/${line.body.fileId}`} target="_blank" rel="noreferrer">
      <img
        class="photo"
        src={`/api/photos/${line.body.fileId}`}
        alt={w.record.photoAlt(of, f.day(line.atMs))}
        loading="lazy"
      />
    </a>
  )
}

/** A photo is made smaller, kept, and then named by a line of the record. */
export function PhotoForm(props: { readonly batchId: number; readonly onAdded: () => void }) {
  const { w } = useWords()
  const { requests, state } = usePage()
  const add = useAddLine(props.batchId)
  const [of, setOf] = useState<Of>('dry')
  const [busy, setBusy] = useState(false)

  async function keep(file: File): Promise<void> {
    setBusy(true)
    const picture = await shrinkPhoto(file).catch(() => null)
    const kept =
      picture === null
        ? ({ ok: false, why: w.record.photoTooOdd } as const)
        : await requests.ask<{ fileId: string }>('POST', '/api/photos', picture)
    setBusy(false)
    if (!kept.ok) state.refusal.value = kept.why
    else if (await add({ kind: 'photo', body: { fileId: kept.value.fileId, of } })) props.onAdded()
  }
  return (
    <div class="field-grid">
      <SelectField
        label={w.record.photoOf}
        value={of}
        options={OF.map((one) => [one, choiceWord(one, w)] as const)}
        onValue={setOf}
      />
      <Field label={w.record.photoFile}>
        {(tied) => (
          <input
            {...tied}
            type="file"
            accept="image/*"
            disabled={busy}
            onChange={(e) => {
              const file = e.currentTarget.files?.[0]
              if (file !== undefined) void keep(file)
              e.currentTarget.value = ''
            }}
          />
        )}
      </Field>
    </div>
  )
}
