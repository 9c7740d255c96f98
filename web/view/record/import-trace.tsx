import { useState } from 'preact/hooks'
import { Field } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'

interface Imported {
  readonly readings: number
  readonly rejected: number
  readonly duplicates: number
  readonly stages: number
}

/** A trace that another logger wrote goes into a batch that has not run. */
export function ImportTrace({ batchId }: { readonly batchId: number }) {
  const { w } = useWords()
  const { requests } = usePage()
  const [refusal, setRefusal] = useState<string | undefined>()
  const [said, setSaid] = useState('')
  const { out } = w.record

  async function take(file: File): Promise<void> {
    const csv = await file.text()
    const taken = await requests.ask<Imported>('POST', '/api/trace-import', { batchId, csv })
    setRefusal(taken.ok ? undefined : taken.why)
    if (!taken.ok) return
    const { readings, stages, rejected, duplicates } = taken.value
    setSaid(out.imported(readings, stages, rejected, duplicates))
  }
  return (
    <>
      <Field label={out.import} help={out.importHelp} error={refusal}>
        {(tied) => (
          <input
            {...tied}
            type="file"
            accept=".csv,text/csv"
            onChange={(e) => {
              const file = e.currentTarget.files?.[0]
              if (file !== undefined) void take(file)
              e.currentTarget.value = ''
            }}
          />
        )}
      </Field>
      <p role="status">{said}</p>
    </>
  )
}
