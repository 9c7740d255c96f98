import { Worker } from 'node:worker_threads'
import { type HeatAnswer, type HeatJob, type HeatWork, HeatWorkEnded } from './heat-work.ts'

type Reply =
  | { readonly id: number; readonly ok: true; readonly value: unknown }
  | { readonly id: number; readonly ok: false; readonly why: string }

interface Waiting {
  readonly done: (value: unknown) => void
  readonly failed: (error: Error) => void
}

/** A thread that has nothing to do for so long is let go, with the memory that it holds, ms. */
const IDLE_MS = 30_000

/** Learning on a thread of its own. `file`: the built worker. One that is gone is started again with the next job. */
export function workerWork(file: URL, idleMs = IDLE_MS): HeatWork {
  const waiting = new Map<number, Waiting>()
  let worker: Worker | null = null
  let nextId = 1
  let isClosed = false
  let idle: NodeJS.Timeout | undefined
  const lose = (lost: Worker, why: Error) => {
    if (worker !== lost) return
    worker = null
    for (const { failed } of waiting.values()) failed(why)
    waiting.clear()
  }
  const rest = () => {
    const resting = worker
    worker = null
    void resting?.terminate()
  }
  const start = (): Worker => {
    const made = new Worker(file)
    // The program may end while the thread stands idle.
    made.unref()
    made.on('message', (reply: Reply) => {
      const found = waiting.get(reply.id)
      waiting.delete(reply.id)
      if (waiting.size === 0) idle = setTimeout(rest, idleMs).unref()
      if (reply.ok) found?.done(reply.value)
      else found?.failed(new Error(reply.why))
    })
    made.on('error', (error: Error) => lose(made, error))
    made.on('messageerror', (error: Error) => lose(made, error))
    made.on('exit', () => lose(made, new Error('the learning thread has ended')))
    return made
  }
  return {
    run: <J extends HeatJob>(job: J) =>
      new Promise<HeatAnswer<J>>((resolve, reject) => {
        if (isClosed) return reject(new HeatWorkEnded())
        clearTimeout(idle)
        worker ??= start()
        const id = nextId++
        waiting.set(id, { done: (value) => resolve(value as HeatAnswer<J>), failed: reject })
        worker.postMessage({ id, job }, [])
      }),
    close: async () => {
      isClosed = true
      clearTimeout(idle)
      const ending = worker
      worker = null
      for (const { failed } of waiting.values()) failed(new HeatWorkEnded())
      waiting.clear()
      await ending?.terminate()
    },
  }
}
