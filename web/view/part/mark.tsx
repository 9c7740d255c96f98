import type { Urgency } from '#core/plan/alarm-names'
import type { Standing } from '../../state/bath-standing.ts'

/** A shape for a meaning: colour only repeats what the shape says. The word always stands beside it. */
export type MarkName = Standing | Urgency | 'stale' | 'done'

const PATHS: Readonly<Record<MarkName, string>> = {
  'in-window': 'M3 4v16M21 4v16M8 12a4 4 0 1 0 8 0 4 4 0 1 0-8 0z',
  'cool-enough': 'M4 13l5 5L20 6',
  done: 'M4 13l5 5L20 6',
  below: 'M4 6h16M12 21V11M7 16l5 5 5-5',
  above: 'M4 18h16M12 3v10M7 8l5-5 5 5',
  'over-ceiling': 'M3 3h18M12 21V8M6 14l6-6 6 6',
  cooling: 'M4 5c6 0 7 13 16 14M20 13v6h-6',
  'no-window': 'M4 12h16',
  'at-once': 'M12 3v11M12 19v1.500',
  soon: 'M12 3 22 20H2zM12 10v5M12 17.500v.5',
  morning: 'M3 18h18M6 18a6 6 0 0 1 12 0M12 4v4',
  log: 'M5 6h14M5 12h14M5 18h9',
  stale: 'M8.500 9a3.600 3.600 0 1 1 5 3.300c-1 .5-1.500 1.200-1.500 2.700M12 19v.5',
}

/** Decorative by itself: the meaning is in the word beside it. */
export function Mark({ name }: { readonly name: MarkName }) {
  return (
    <svg class={`mark mark-${name}`} viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path d={PATHS[name]} />
    </svg>
  )
}
