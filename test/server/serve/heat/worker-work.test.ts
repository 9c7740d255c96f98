import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { expect, onTestFinished, test } from 'vitest'
import { type HeatJob, HeatWorkEnded } from '../../../../server/serve/heat/heat-work.ts'
import { workerWork } from '../../../../server/serve/heat/worker-work.ts'
import { tempFolder } from '../../../kit/temp-folder.ts'

/** A worker that answers each job as `answer` says, in place of the one that learns. */
function threadThat(answer: string): URL {
  const file = join(tempFolder(), 'thread.mjs')
  const begin = `import { parentPort, threadId } from 'node:worker_threads'\n`
  writeFileSync(file, `${begin}parentPort.on('message', ({ id, job }) => { ${answer} })\n`)
  return pathToFileURL(file)
}

const JOB = {} as HeatJob
const TELLS_ITSELF = 'parentPort.postMessage({ id, ok: true, value: threadId })'

function workOf(file: URL, idleMs?: number) {
  const work = workerWork(file, idleMs)
  onTestFinished(() => work.close())
  return work
}

test('one thread does one job after the other', async () => {
  const work = workOf(threadThat(TELLS_ITSELF))
  expect(await work.run(JOB)).toBe(await work.run(JOB))
})

test('a thread with nothing to do is let go, and the next job has another', async () => {
  const work = workOf(threadThat(TELLS_ITSELF), 1)
  const first = await work.run(JOB)
  await expect.poll(() => work.run(JOB), { interval: 30 }).not.toBe(first)
})

test('a job whose thread dies fails, and the next job has another thread', async () => {
  const work = workOf(threadThat(`if (job.dies) process.exit(1); ${TELLS_ITSELF}`))
  await expect(work.run({ dies: true } as unknown as HeatJob)).rejects.toThrow('has ended')
  expect(await work.run(JOB)).toBeGreaterThan(0)
})

test('the end breaks off a job that never comes to one, and takes no other', async () => {
  const work = workOf(threadThat('for (;;) {}'))
  const [endless] = await Promise.allSettled([work.run(JOB), work.close()])
  expect(endless).toMatchObject({ status: 'rejected', reason: new HeatWorkEnded() })
  await expect(work.run(JOB)).rejects.toThrow(HeatWorkEnded)
})
