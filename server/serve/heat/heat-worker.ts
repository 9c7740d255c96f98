import { parentPort } from 'node:worker_threads'
import { doHeatJob, type HeatJob } from './heat-work.ts'

/** The worker's own program: one job after the other, as they come. */
parentPort?.on('message', ({ id, job }: { readonly id: number; readonly job: HeatJob }) => {
  try {
    parentPort?.postMessage({ id, ok: true, value: doHeatJob(job) }, [])
  } catch (error) {
    parentPort?.postMessage(
      { id, ok: false, why: error instanceof Error ? error.message : String(error) },
      [],
    )
  }
})
