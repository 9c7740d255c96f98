/** The pages, as they stand in the address after `#`. */
export type Route =
  | { readonly kind: 'stove' }
  | { readonly kind: 'pot'; readonly potId: string }
  | { readonly kind: 'burner'; readonly potId: string }
  | { readonly kind: 'what-if'; readonly potId: string }
  | { readonly kind: 'evening'; readonly potId: string }
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
  | { readonly kind: 'find'; readonly facet: string }
  | { readonly kind: 'weigh'; readonly batchId: number }
  | { readonly kind: 'record'; readonly batchId: number }
  | { readonly kind: 'repeat'; readonly batchId: number }
  | { readonly kind: 'differs'; readonly batchId: number; readonly fromId: number }
  | { readonly kind: 'compare'; readonly ids: readonly number[] }
  | { readonly kind: 'stock' }
  | { readonly kind: 'shades' }
  | { readonly kind: 'class' }
  | { readonly kind: 'unknown'; readonly path: string }

/** A QR code on a tag leads to `/batches/7`; every other page stands after the `#`. */
export const routeAt = (address: { readonly hash: string; readonly pathname: string }): Route =>
  parseRoute(address.hash === '' ? `#${address.pathname}` : address.hash)

/** `#/batches/12` → route. Names and numbers are decoded; what isn't known is `unknown`, never a guess. */
export function parseRoute(hash: string): Route {
  const path = hash.replace(/^#\/?/, '')
  const [head = '', tail, ...rest] = path.split('/').map(decode)
  const unknown: Route = { kind: 'unknown', path }
  if (rest.length > 0) return potPage(head, tail, rest) ?? unknown
  if (tail === undefined) return plainRoute(head) ?? unknown
  return routeWith(head, tail) ?? unknown
}

/** `#/pots/heron/burner` */
function potPage(head: string, potId: string | undefined, rest: readonly string[]): Route | null {
  const kind = (['burner', 'what-if', 'evening'] as const).find((name) => name === rest[0])
  if (head !== 'pots' || rest.length !== 1 || kind === undefined) return null
  return potId === undefined || potId === '' ? null : { kind, potId }
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
    case 'stock':
    case 'shades':
    case 'class':
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
  if (head === 'find' && tail !== '') return { kind: 'find', facet: tail }
  if (head === 'compare' || head === 'differs') return routeOfSeveral(head, tail)
  if (id === null) return null
  if (head === 'weigh' || head === 'record' || head === 'repeat') return { kind: head, batchId: id }
  if (head === 'plans') return { kind: 'plan', planId: id }
  if (head === 'batches') return { kind: 'batch', batchId: id }
  if (head === 'begin') return { kind: 'begin-batch', batchId: id }
  if (head === 'start') return { kind: 'start-batch', planId: id }
  return null
}

/** `3,7`: two to six batches to compare, or a batch and the one whose shade it repeats. */
function routeOfSeveral(head: 'compare' | 'differs', tail: string): Route | null {
  if (!/^\d{1,15}(,\d{1,15}){1,5}$/.test(tail)) return null
  const ids = tail.split(',').map(Number)
  if (head === 'compare') return { kind: 'compare', ids }
  return ids.length === 2 ? { kind: 'differs', batchId: ids[0]!, fromId: ids[1]! } : null
}

/** Route → address; the inverse of `parseRoute`. */
export function routeHref(route: Route): string {
  switch (route.kind) {
    case 'stove':
      return '#/'
    case 'pot':
      return `#/pots/${encodeURIComponent(route.potId)}`
    case 'burner':
    case 'what-if':
    case 'evening':
      return `#/pots/${encodeURIComponent(route.potId)}/${route.kind}`
    case 'batch':
      return `#/batches/${route.batchId}`
    case 'plan':
      return `#/plans/${route.planId}`
    case 'start-batch':
      return route.planId === null ? '#/start' : `#/start/${route.planId}`
    case 'begin-batch':
      return `#/begin/${route.batchId}`
    case 'find':
      return `#/find/${encodeURIComponent(route.facet)}`
    case 'weigh':
    case 'record':
    case 'repeat':
      return `#/${route.kind}/${route.batchId}`
    case 'differs':
      return `#/differs/${route.batchId},${route.fromId}`
    case 'compare':
      return `#/compare/${route.ids.join(',')}`
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
