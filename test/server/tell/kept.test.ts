import { mkdtemp, readFile, readdir, rm, stat, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { KeptFile } from '../../../server/tell/kept.ts'

let folder: string
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'kept-'))
})
afterEach(() => rm(folder, { recursive: true }))

const kept = () =>
  new KeptFile<readonly number[]>(join(folder, 'numbers.json'), (json) =>
    Array.isArray(json) && json.every((n) => typeof n === 'number') ? json : null,
  )

test('nothing is there before it was saved', async () => {
  expect(await kept().load()).toBeNull()
})

test('what was saved is there in the next run, readable by its owner alone', async () => {
  await kept().save([1, 2])
  expect(await kept().load()).toEqual([1, 2])
  expect((await stat(join(folder, 'numbers.json'))).mode & 0o777).toBe(0o600)
})

test('the last of many saves at once is what stays, and nothing is left beside it', async () => {
  const one = kept()
  await Promise.all(Array.from({ length: 30 }, (_, i) => one.save([i])))
  expect(await kept().load()).toEqual([29])
  expect(await readdir(folder)).toEqual(['numbers.json'])
})

test.each(['{"half', '"a text"', ''])('a file that holds %s is set aside, not written over', async (text) => {
  await writeFile(join(folder, 'numbers.json'), text)
  expect(await kept().load()).toBeNull()
  expect(await readFile(join(folder, 'numbers.json.unreadable'), 'utf8')).toBe(text)
})

test('a folder that is gone is told to whoever saves', async () => {
  await rm(folder, { recursive: true })
  await expect(kept().save([1])).rejects.toThrow(/ENOENT/)
  await import('node:fs/promises').then((fs) => fs.mkdir(folder))
})
