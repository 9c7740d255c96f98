import { readFileSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { deSaid } from '../../../web/view/words/de-said.ts'

const ROOT = join(import.meta.dirname, '../../..')

/** Files whose sentences reach a person through the page. */
const SPEAKERS = [
  ...filesIn('server/serve/routes'),
  'server/serve/stove-keeper.ts',
  'server/serve/stage-of-batch.ts',
  'server/serve/heat/evening-desk.ts',
  'server/serve/heat/evening-refusal.ts',
  'server/core/watch/alarm-life.ts',
  'server/core/measure/check-correction.ts',
  'server/core/measure/probe-check.ts',
  'server/core/batch/photo-colour.ts',
  'server/store/disk-trouble.ts',
  'server/tell/linux-inhibitor.ts',
  'bridge/probe/probe-life.ts',
  'bridge/probe/serial-door.ts',
  'bridge/probe/find-port.ts',
  'bridge/probe/line-samples.ts',
  'bridge/probe/mqtt.ts',
  'bridge/probe/modbus-port.ts',
  'bridge/probe/modbus-rtu.ts',
  'bridge/probe/one-wire-files.ts',
  'web/state/requests.ts',
  'web/state/server-link.ts',
]

/** Said to programs and to those who write them: the page never asks so that these are answered. */
const FOR_PROGRAMS = [
  /^this is for bridges/,
  /^the whole studio is for people/,
  /^the watch stands still/,
  /^a backup is made from this computer/,
  /^file is /,
  /^one entry of /,
  /^from /,
  /^zone is /,
  /^expected a line template/,
]

function filesIn(folder: string): readonly string[] {
  return readdirSync(join(ROOT, folder))
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `${folder}/${name}`)
}

/** The sentences in a source file: texts of several words, joined where they were broken; `7` for what is put in. */
function sentencesIn(path: string): readonly string[] {
  const source = filledIn(readFileSync(join(ROOT, path), 'utf8'))
    .replaceAll(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '')
    .replaceAll(/(?:summary:|describe\()\s*(['"`]).*?\1/gs, '')
    .replaceAll(/\.(?:regex|refine)\((?:[^()]|\([^()]*\))*\)/g, '')
    .replaceAll(/[`']\s*\+\s*[`']/g, '')
    .replaceAll(/notFound\((['`])/g, '$1there is no ')
  const texts = [...source.matchAll(/`([^`]*)`|'((?:[^'\\\n]|\\.)*)'/g)].map((m) => m[1] ?? m[2] ?? '')
  return texts
    .map((text) => text.replaceAll("\\'", "'"))
    .filter((text) => /^(?:[a-z7][\w"'-]*[,:;]? ){3,}/.test(text))
}

/** What is put into a template is `7`, from the innermost outwards; a hint that may follow is left out. */
function filledIn(source: string): string {
  const filled = source.replaceAll('${hint(way)}', '').replaceAll(/\$\{[^{}]*\}/g, '7')
  return filled === source ? source : filledIn(filled)
}

test('what goes wrong is told in German wherever the page shows it', () => {
  const left = SPEAKERS.flatMap((path) => sentencesIn(path).map((text) => ({ path, text })))
    .filter(({ text }) => deSaid(text) === text)
    .filter(({ text }) => !FOR_PROGRAMS.some((known) => known.test(text)))
  expect(left).toEqual([])
})

test('names and numbers of a sentence are kept, with a decimal comma', () => {
  expect(deSaid('there is no pot "wren"')).toBe('einen Topf „wren“ gibt es nicht')
  expect(deSaid('a check is 6.4 °C off; a correction is at most 5 °C, look at the probe')).toBe(
    'eine Prüfung liegt 6,4 °C daneben; eine Korrektur ist höchstens 5 °C groß, sieh nach dem Fühler',
  )
  expect(deSaid('no reading for 12 s; what came was a line that is not of the set shape: "T=x"')).toBe(
    'seit 12 s kein Messwert; gekommen ist eine Zeile, die nicht zum Muster passt: „T=x“',
  )
})

test('a sentence that is not known stays as it came', () => {
  expect(deSaid('the modem says no')).toBe('the modem says no')
})
