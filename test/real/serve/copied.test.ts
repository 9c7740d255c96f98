import { copyFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { beforeAll, expect, onTestFinished, test } from 'vitest'
import { buildProgram, Program } from '../../kit/program.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

beforeAll(buildProgram)

const T0 = Date.UTC(2026, 0, 10)
const COPIES = 20

async function send(url: string, seqs: readonly number[]): Promise<boolean> {
  const pack = seqs.map((n) => ({ n: 'pi/heron', u: 'Cel', t: T0 / 1000 + n, v: 84, boot: 'b', seq: n }))
  const headers = { 'content-type': 'application/senml+json' }
  const answer = await fetch(`${url}/api/readings`, { method: 'POST', body: JSON.stringify(pack), headers })
  return answer.status === 200
}

/**
 * What the disk holds at a moment: the file and its log. Two files can't be copied at once, so a copy during which
 * the log was carried over into the file (the only writes that go there) is made again.
 */
function copyOf(data: string): string {
  const file = join(data, 'holdfast.db')
  for (;;) {
    const copy = join(tempFolder(), 'holdfast.db')
    const beforeMs = statSync(file).mtimeMs
    copyFileSync(file, copy)
    copyFileSync(`${file}-wal`, `${copy}-wal`)
    if (statSync(file).mtimeMs === beforeMs) return copy
  }
}

function seqsIn(file: string): ReadonlySet<number> {
  const db = new Database(file)
  try {
    expect(db.pragma('integrity_check', { simple: true })).toBe('ok')
    const rows = db.prepare<[], { at_ms: number }>('select at_ms from reading').all()
    return new Set(rows.map((row) => (row.at_ms - T0) / 1000))
  } finally {
    db.close()
  }
}

test('the database and its log, copied at twenty moments while it is written, hold every reading acknowledged before', async () => {
  const data = tempFolder()
  const server = new Program(['serve', '--data', data, '--port', '0', '--no-bridge', '--log', 'error'])
  onTestFinished(() => server.stop('SIGKILL'))
  await server.start(/ready (\S+)\n/)
  const url = /ready (\S+)/.exec(server.output)![1]!
  const acknowledged: number[] = []
  const over = new AbortController()
  const sending = (async () => {
    for (let seq = 0; !over.signal.aborted; seq += 5) {
      const sent = [seq, seq + 1, seq + 2, seq + 3, seq + 4]
      if (await send(url, sent)) acknowledged.push(...sent)
    }
  })()
  const lost: number[] = []
  for (let nth = 0; nth < COPIES; nth += 1) {
    await new Promise((resolve) => setTimeout(resolve, 40 + ((nth * 37) % 90)))
    const before = [...acknowledged]
    const held = seqsIn(copyOf(data))
    lost.push(...before.filter((seq) => !held.has(seq)))
  }
  over.abort()
  await sending
  expect(lost).toEqual([])
  expect(acknowledged.length).toBeGreaterThan(COPIES)
})
