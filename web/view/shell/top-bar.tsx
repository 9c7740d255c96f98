import type { Route } from '../../state/route.ts'
import { usePage, useWords } from '../page-context.ts'
import { SoundSwitch } from './sound-switch.tsx'

const PAGES = ['stove', 'batches', 'plans', 'probes', 'night', 'settings'] as const

/** Which entry of the navigation a page belongs to. */
export function entryOf(route: Route): (typeof PAGES)[number] | null {
  switch (route.kind) {
    case 'pot':
    case 'burner':
    case 'what-if':
    case 'evening':
      return 'stove'
    case 'batch':
    case 'start-batch':
    case 'begin-batch':
    case 'find':
    case 'weigh':
    case 'record':
    case 'repeat':
    case 'differs':
    case 'compare':
    case 'stock':
    case 'shades':
    case 'class':
      return 'batches'
    case 'plan':
      return 'plans'
    case 'morning':
      return 'night'
    case 'unknown':
      return null
    default:
      return route.kind
  }
}

export function TopBar() {
  const { w } = useWords()
  const here = entryOf(usePage().state.route.value)
  return (
    <header class="top-bar">
      <a class="product" href="#/" aria-label={w.shell.product}>
        <svg viewBox="0 0 32 32" aria-hidden="true" focusable="false">
          <path d="M3 9h26M6 9l1.500 17a3 3 0 0 0 3 2.700h11a3 3 0 0 0 3-2.700L26 9" />
          <path d="M8 17c2.700-1.800 5.300 1.800 8 0s5.300 1.800 8 0" />
        </svg>
        <span>{w.shell.product}</span>
      </a>
      <nav aria-label={w.shell.nav.label}>
        <ul>
          {PAGES.map((page) => (
            <li key={page}>
              <a
                href={page === 'stove' ? '#/' : `#/${page}`}
                {...(page === here ? { 'aria-current': 'page' as const } : {})}
              >
                {w.shell.nav[page]}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <SoundSwitch />
    </header>
  )
}
