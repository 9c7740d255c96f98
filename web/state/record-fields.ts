import { GREY_GRADES } from '#core/batch/grey-grades'
import type { RecordKind } from '#core/batch/record-line'

/**
 * How a field is typed and shown. `weight`, `volume`, `temp`: in the person's unit; `batch`, `stage`, `choice`: one
 * of several; `date`: a day; `lab`: one of the three numbers of a colour.
 */
export type FieldSort =
  | 'word'
  | 'text'
  | 'number'
  | 'whole'
  | 'weight'
  | 'volume'
  | 'temp'
  | 'choice'
  | 'batch'
  | 'stage'
  | 'date'
  | 'lab'

export interface RecordField {
  readonly name: FieldName
  readonly sort: FieldSort
  /** Without it there is nothing to keep. */
  readonly must?: true
  readonly choices?: readonly string[]
}

/** Kinds that a person writes in a form; weighings and photos have pages of their own. */
export type FormKind = Exclude<RecordKind, 'weighing' | 'photo' | 'withdrawn'>

export type FieldName =
  | 'what'
  | 'fibre'
  | 'source'
  | 'wetWeightG'
  | 'condition'
  | 'pieces'
  | 'owner'
  | 'lot'
  | 'hardnessMgL'
  | 'ph'
  | 'litres'
  | 'batchId'
  | 'doneMs'
  | 'form'
  | 'extraction'
  | 'use'
  | 'ofBatchId'
  | 'burner'
  | 'lid'
  | 'probePlace'
  | 'stageId'
  | 'when'
  | 'by'
  | 'sampleC'
  | 'place'
  | 'tempC'
  | 'words'
  | 'referenceBatchId'
  | 'match'
  | 'matchScore'
  | 'lightness'
  | 'a'
  | 'b'
  | 'labFrom'
  | 'evenness'
  | 'handle'
  | 'test'
  | 'grade'
  | 'where'
  | 'note'
  | 'goodsCost'
  | 'energyKWh'
  | 'pricePerKWh'
  | 'handsOnMin'
  | 'hourlyWage'
  | 'currency'
  | 'text'

const SCORES = ['1', '2', '3', '4', '5']
const GRADES = [...GREY_GRADES, '6', '7', '8']
const MATCHES = ['same', 'better', 'lighter', 'darker', 'duller', 'redder', 'yellower', 'bluer']

const field = (name: FieldName, sort: FieldSort, choices?: readonly string[]): RecordField => ({
  name,
  sort,
  ...(choices === undefined ? {} : { choices }),
})
const must = (of: RecordField): RecordField => ({ ...of, must: true })

/** What each kind of line asks for, in the order of the form. */
export const RECORD_FIELDS: Readonly<Record<FormKind, readonly RecordField[]>> = {
  goods: [
    field('what', 'word'),
    field('fibre', 'word'),
    field('source', 'word'),
    field('wetWeightG', 'weight'),
    field('condition', 'word'),
    field('pieces', 'whole'),
    field('owner', 'word'),
    field('lot', 'word'),
  ],
  water: [
    field('source', 'word'),
    field('hardnessMgL', 'number'),
    field('ph', 'number'),
    field('litres', 'volume'),
  ],
  preparation: [
    must(field('what', 'word')),
    field('batchId', 'batch'),
    field('lot', 'word'),
    field('doneMs', 'date'),
  ],
  'dye-bath': [
    field('form', 'word'),
    field('extraction', 'text'),
    field('use', 'whole'),
    field('ofBatchId', 'batch'),
  ],
  equipment: [field('burner', 'word'), field('lid', 'word'), field('probePlace', 'word')],
  ph: [
    must(field('ph', 'number')),
    field('stageId', 'stage'),
    field('when', 'choice', ['start', 'after-dye', 'end']),
    field('by', 'choice', ['strip', 'meter']),
    field('sampleC', 'temp'),
  ],
  check: [
    must(field('place', 'choice', ['top', 'middle', 'bottom'])),
    must(field('tempC', 'temp')),
    field('stageId', 'stage'),
  ],
  result: [
    field('words', 'text'),
    field('referenceBatchId', 'batch'),
    field('match', 'choice', MATCHES),
    field('matchScore', 'choice', SCORES),
    field('lightness', 'lab'),
    field('a', 'lab'),
    field('b', 'lab'),
    field('labFrom', 'choice', ['meter', 'photo']),
    field('evenness', 'choice', SCORES),
    field('handle', 'choice', SCORES),
  ],
  fastness: [
    must(field('test', 'choice', ['wash', 'rub', 'light'])),
    must(field('grade', 'choice', GRADES)),
    must(field('where', 'choice', ['home', 'lab'])),
    field('note', 'text'),
  ],
  cost: [
    field('goodsCost', 'number'),
    field('energyKWh', 'number'),
    field('pricePerKWh', 'number'),
    field('handsOnMin', 'number'),
    field('hourlyWage', 'number'),
    field('currency', 'word'),
  ],
  note: [must(field('text', 'text')), field('stageId', 'stage')],
}

/** Scores are numbers in the record and choices on the page. */
export const isScore = (name: FieldName): boolean =>
  name === 'matchScore' || name === 'evenness' || name === 'handle'
