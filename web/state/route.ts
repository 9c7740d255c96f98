/** The pages, as they stand in the address after `#`. */
export type Route =
  | { readonly kind: 'stove' }
  | { readonly kind: 'pot'; readonly potId: string }
  | { readonly kind: 'batches' }
  | { readonly kind: 'batch'; readonly batchId: number }
  | { readonly kind: 'start-batch'; readonly planId: number | null }
  | { readonly kind: 'begin-batch'; readonly batchId: number }
  | { readonly kind: 'plans' }
  | { readonly kind: 'plan'; readonly planId: number | 'new' }
  | { readonly kind: 'probes' }
  | { readonly kind: 'night' }
  | { readonly kind: 'morning' }
  | { readonly kind: 'settings' }
  | { readonly kind: 'unknown'; readonly path: string }

/** `#/batches/12` → route. Names and numbers are decoded; what isn't known is `unknown`, never a guess. */
export function parseRoute(hash: string): Route {
  const path = hash.replace(/^#\/?/, '')
  const [head = '', tail, ...rest] = path.split('/').map(decode)
  const unknown: Route = { kind: 'unknown', path }
  if (rest.length > 0) return unknown
  if (tail === undefined) return plainRoute(head) ?? unknown
  return routeWith(head, tail) ?? unknown
}

function plainRoute(head: string): Route | null {
  switch (head) {
    case '':
      return { kind: 'stove' }
    case 'batches':
    case 'plans':
    case 'probes':
    case 'night':
    case 'morning':
    case 'settings':
      return { kind: head }
    case 'start':
      return { kind: 'start-batch', planId: null }
    default:
      return null
  }
}

function routeWith(head: string, tail: string): Route | null {
  const id = /^\d{1,15}$/.test(tail) ? Number(tail) : null
  if (head === 'pots' && tail !== '') return { kind: 'pot', potId: tail }
  if (head === 'plans' && tail === 'new') return { kind: 'plan', planId: 'new' }
  if (id === null) return null
  if (head === 'plans') return { kind: 'plan', planId: id }
  if (head === 'batches') return { kind: 'batch', batchId: id }
  if (head === 'begin') return { kind: 'begin-batch', batchId: id }
  if (head === 'start') return { kind: 'start-batch', planId: id }
  return null
}

/** Route → address; the inverse of `parseRoute`. */
export function routeHref(route: Route): string {
  switch (route.kind) {
    case 'stove':
      return '#/'
    case 'pot':
      return `#/pots/${encodeURIComponent(route.potId)}`
    case 'batch':
      return `#/batches/${route.batchId}`
    case 'plan':
      return `#/plans/${route.planId}`
    case 'start-batch':
      return route.planId === null ? '#/start' : `#/start/${route.planId}`
    case 'begin-batch':
      return `#/begin/${route.batchId}`
    case 'unknown':
      return `#/${route.path}`
    default:
      return `#/${route.kind}`
  }
}

function decode(part: string): string {
  try {
    return decodeURIComponent(part)
  } catch {
    return part
  }
}
