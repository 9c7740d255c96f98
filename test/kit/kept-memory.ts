import type { Kept } from '../../server/tell/kept.ts'

/** Keeps a value as long as the test runs. */
export class KeptMemory<T> implements Kept<T> {
  value: T | null = null
  load = () => Promise.resolve(this.value)
  save = (value: T) => {
    this.value = value
    return Promise.resolve()
  }
}
