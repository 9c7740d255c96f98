import { EMPTY_FIND, findOfFacet, findPath } from './find-query.ts'
import type { Route } from './route.ts'

/**
 * What a page asks the server for when it opens, as far as its address tells: asked while the program itself is still
 * on its way. A path that a page does not ask for is fetched for nothing; `test/page/opening.test.ts` holds them together.
 */
export function firstAsks(route: Route): readonly string[] {
  switch (route.kind) {
    case 'batches':
      return ['/api/facets', findPath(EMPTY_FIND, null)]
    case 'find':
      return ['/api/facets', findPath(findOfFacet(route.facet), null)]
    case 'batch':
    case 'repeat':
      return [`/api/batches/${route.batchId}`]
    case 'weigh':
      return [`/api/batches/${route.batchId}`, '/api/stock']
    case 'record':
      return [`/api/batches/${route.batchId}`, '/api/batches?limit=200']
    case 'begin-batch':
      return [`/api/batches/${route.batchId}`, '/api/pots']
    case 'compare':
      return [`/api/compare?ids=${route.ids.join(',')}`]
    case 'differs':
      return [`/api/batches/${route.batchId}`, `/api/batches/${route.fromId}`]
    case 'shades':
      return ['/api/facets', '/api/shades']
    case 'plan':
      return route.planId === 'new' ? [] : [`/api/plans/${route.planId}`]
    case 'burner':
      return [`/api/pots/${encodeURIComponent(route.potId)}/burner`]
    case 'what-if':
      return [`/api/pots/${encodeURIComponent(route.potId)}/burner`, '/api/plans']
    default:
      return PLAIN_ASKS[route.kind] ?? []
  }
}

/** Of pages without anything of their own in the address. */
const PLAIN_ASKS: Readonly<Partial<Record<Route['kind'], readonly string[]>>> = {
  'start-batch': ['/api/plans', '/api/pots'],
  class: ['/api/plans', '/api/pots'],
  plans: ['/api/plans'],
  probes: ['/api/probes', '/api/pots'],
  stock: ['/api/stock'],
  morning: ['/api/morning'],
}

const WITH_CHART: ReadonlySet<Route['kind']> = new Set([
  'stove',
  'pot',
  'batch',
  'burner',
  'what-if',
  'evening',
])

/** The page draws with the chart library, which is a file of its own. */
export const drawsCharts = (route: Route): boolean => WITH_CHART.has(route.kind)
