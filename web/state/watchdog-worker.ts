import { type PulseWatch, stepPulseWatch } from './pulse-watch.ts'

/**
 * Runs in a Worker, whose timers a browser does not slow down when the page is hidden. The page says
 * `pulse` for each one it gets; the worker says `true` when silence begins and `false` when it ends.
 */
let watch: PulseWatch = { heardMs: performance.now(), silent: false }

function step(kind: 'pulse' | 'tick'): void {
  const before = watch.silent
  watch = stepPulseWatch(watch, { kind, atMs: performance.now() })
  if (watch.silent !== before) globalThis.postMessage(watch.silent, {})
}

globalThis.addEventListener('message', () => step('pulse'))
setInterval(() => step('tick'), 500)
