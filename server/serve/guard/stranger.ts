import { isIP } from 'node:net'

/** What a request says about where it comes from; header names in lower case. */
export interface Caller {
  readonly method: string
  readonly path: string
  readonly headers: Readonly<Record<string, string | string[] | undefined>>
}

export interface Refusal {
  readonly status: number
  readonly why: string
}

/** By which names the server may be called. `anyAddress`: by any literal address, when it listens on more than the loopback. */
export interface OwnNames {
  readonly names: readonly string[]
  readonly anyAddress: boolean
}

const LOOPBACK_NAMES = ['localhost', '127.0.0.1', '[::1]']

export const isLoopbackHost = (host: string): boolean =>
  host === 'localhost' || host === '::1' || host === '[::1]' || /^127(\.\d{1,3}){3}$/.test(host)

export const ownNames = (host: string, hosts: readonly string[]): OwnNames => ({
  names: [...LOOPBACK_NAMES, host.toLowerCase(), ...hosts.map((name) => name.toLowerCase())],
  anyAddress: !isLoopbackHost(host),
})

/**
 * Why a request is refused before anything reads it, or `null`. A page of another site must not reach this
 * server through the reader's browser: not by a name that it points here (Host), not by a request of its own
 * (Origin, Sec-Fetch-Site), and not by a websocket, which browsers open to anywhere.
 */
export function refuseStranger(caller: Caller, own: OwnNames, isUpgrade: boolean): Refusal | null {
  const host = header(caller, 'host')
  if (host === undefined || !isOwn(host, own)) return { status: 421, why: hostSentence(host, own) }
  const origin = header(caller, 'origin')
  if (origin !== undefined && !isSameOrigin(origin, host))
    return {
      status: 403,
      why: `the origin ${quoted(origin)} is not this server's own; only its own pages may ask`,
    }
  if (origin === undefined && isUpgrade && (header(caller, 'user-agent') ?? '').startsWith('Mozilla/'))
    return { status: 403, why: 'a browser must say which page it asks from (Origin)' }
  return refuseFetchSite(caller)
}

function refuseFetchSite(caller: Caller): Refusal | null {
  const site = header(caller, 'sec-fetch-site')
  if (site === undefined || site === 'same-origin' || site === 'none') return null
  const isLink = caller.method === 'GET' && header(caller, 'sec-fetch-mode') === 'navigate'
  if (isLink && !caller.path.startsWith('/api')) return null
  return {
    status: 403,
    why: `a page of another site asked (${quoted(site)}); only this server's own pages may`,
  }
}

function header(caller: Caller, name: string): string | undefined {
  const value = caller.headers[name]
  return Array.isArray(value) ? value.join(', ') : value
}

/** The name of a Host header without its port; `null` when it is none. */
export function hostNameOf(host: string): string | null {
  const parts = /^(\[[0-9a-fA-F:.]+\]|[A-Za-z0-9._-]+)(:\d{1,5})?$/.exec(host)
  return parts === null ? null : parts[1]!.toLowerCase().replace(/\.$/, '')
}

function isOwn(host: string, own: OwnNames): boolean {
  const name = hostNameOf(host)
  if (name === null) return false
  return own.names.includes(name) || isLoopbackHost(name) || (own.anyAddress && isIP(bare(name)) !== 0)
}

const bare = (name: string): string => name.replaceAll(/^\[|\]$/g, '')

const isSameOrigin = (origin: string, host: string): boolean => {
  const lower = origin.toLowerCase()
  return lower === `http://${host.toLowerCase()}` || lower === `https://${host.toLowerCase()}`
}

const hostSentence = (host: string | undefined, own: OwnNames): string =>
  `this server does not answer to ${host === undefined ? 'a request without a Host' : quoted(host)}; ` +
  `it does to ${[...new Set(own.names)].join(', ')}; further names go into "hosts" of the settings`

/** Whatever was sent, short and without control characters. */
const quoted = (text: string): string => JSON.stringify(text.slice(0, 80))
