import type {
  CostNote,
  DyeBath,
  Equipment,
  Fastness,
  Goods,
  LineOf,
  RecordKind,
  RecordLine,
  Result,
  Water,
} from './record-line.ts'

/** The record as it stands now: every line that no later one took the place of. */
export interface CurrentRecord {
  /** Of these the lines add up, the later field wins: goods weighed in the morning, named at night. */
  readonly goods: Goods
  readonly water: Water
  readonly dyeBath: DyeBath
  readonly equipment: Equipment
  readonly cost: CostNote
  readonly result: Result
  readonly preparations: readonly LineOf<'preparation'>[]
  readonly weighings: readonly LineOf<'weighing'>[]
  readonly phs: readonly LineOf<'ph'>[]
  readonly checks: readonly LineOf<'check'>[]
  readonly photos: readonly LineOf<'photo'>[]
  /** The newest of each test. */
  readonly fastness: readonly Fastness[]
  readonly notes: readonly LineOf<'note'>[]
}

/** Folds the lines of a batch, in any order, into the record as it stands. */
export function currentRecord(lines: readonly RecordLine[]): CurrentRecord {
  const standing = standingLines(lines)
  return {
    goods: merged(standing, 'goods'),
    water: merged(standing, 'water'),
    dyeBath: merged(standing, 'dye-bath'),
    equipment: merged(standing, 'equipment'),
    cost: merged(standing, 'cost'),
    result: merged(standing, 'result'),
    preparations: linesOf(standing, 'preparation'),
    weighings: linesOf(standing, 'weighing'),
    phs: linesOf(standing, 'ph'),
    checks: linesOf(standing, 'check'),
    photos: linesOf(standing, 'photo'),
    fastness: newestTests(linesOf(standing, 'fastness').map((line) => line.body)),
    notes: linesOf(standing, 'note'),
  }
}

/**
 * Lines that stand, by time. A line can only replace one that was written before it (a lower id); of two that
 * replace the same one both stand, as two people may both be right about a part: the page shows both.
 */
export function standingLines(lines: readonly RecordLine[]): readonly RecordLine[] {
  const gone = new Set(lines.filter((l) => l.replaces !== null && l.replaces < l.id).map((l) => l.replaces))
  return lines
    .filter((line) => line.kind !== 'withdrawn' && !gone.has(line.id))
    .sort((a, b) => a.atMs - b.atMs || a.id - b.id)
}

function linesOf<K extends RecordKind>(lines: readonly RecordLine[], kind: K): readonly LineOf<K>[] {
  return lines.filter((line): line is LineOf<K> => line.kind === kind)
}

type Mergeable = 'goods' | 'water' | 'dye-bath' | 'equipment' | 'cost' | 'result'

function merged<K extends Mergeable>(lines: readonly RecordLine[], kind: K): LineOf<K>['body'] {
  const own = lines.filter((line) => line.kind === kind).sort((a, b) => a.notedMs - b.notedMs || a.id - b.id)
  return Object.assign({}, ...own.map((line) => line.body)) as LineOf<K>['body']
}

function newestTests(tests: readonly Fastness[]): readonly Fastness[] {
  return [...new Map(tests.map((test) => [test.test, test])).values()]
}
