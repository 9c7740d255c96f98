import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { MAX_LINE_BYTES, splitLines, startSplit } from '#core/measure/split-lines'

const bytes = (text: string) => Uint8Array.from(text, (c) => c.charCodeAt(0))

function through(chunks: readonly Uint8Array[], dropFirst = false) {
  let state = startSplit(dropFirst)
  const lines: string[] = []
  let dropped = 0
  for (const chunk of chunks) {
    const step = splitLines(state, chunk)
    state = step.state
    lines.push(...step.lines)
    dropped += step.dropped
  }
  return { lines, dropped, open: state.open }
}

test('an unfinished last line is never given out', () => {
  expect(through([bytes('T=81.2\nT=8')])).toEqual({ lines: ['T=81.2'], dropped: 0, open: 'T=8' })
})

test('CR LF, LF and CR end a line and none of them stays in it', () => {
  expect(through([bytes('a\r\nb\nc\rd\n')]).lines).toEqual(['a', 'b', 'c', 'd'])
  expect(through([bytes('a\r'), bytes('\nb\n')]).lines).toEqual(['a', 'b'])
})

test('a first line that may be half of one is dropped and counted', () => {
  expect(through([bytes('8.1\n78.2\n')], true)).toEqual({ lines: ['78.2'], dropped: 1, open: '' })
})

test('a line over the limit is dropped and the next one is whole', () => {
  const long = 'x'.repeat(MAX_LINE_BYTES + 1)
  expect(through([bytes(`${long}\nT=1\n`)])).toEqual({ lines: ['T=1'], dropped: 1, open: '' })
  expect(through([bytes('x'.repeat(MAX_LINE_BYTES)), bytes('\n')]).lines).toHaveLength(1)
})

test('endless noise without a line end holds no more than one line', () => {
  let state = startSplit(false)
  for (let i = 0; i < 2000; i++) {
    state = splitLines(state, new Uint8Array(64).fill(0xff)).state
    expect(state.open.length).toBeLessThanOrEqual(MAX_LINE_BYTES)
  }
})

test('how the bytes are cut into chunks never changes the lines', () => {
  const stream = fc.uint8Array({ maxLength: 300 }).map((b) => b.map((x) => (x % 7 === 0 ? 10 : x)))
  fc.assert(
    fc.property(stream, fc.array(fc.nat({ max: 300 })), (whole, cuts) => {
      const at = [0, ...cuts.map((c) => Math.min(c, whole.length)).sort((a, b) => a - b), whole.length]
      const chunks = at.slice(1).map((end, i) => whole.subarray(at[i], end))
      expect(through(chunks)).toEqual(through([whole]))
    }),
  )
})
