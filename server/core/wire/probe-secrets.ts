import type { ProbeSettings } from './probe-settings.ts'

/** A probe's settings as a person may see them: without password, and without the login in an address. */
export type ShownProbe = ProbeSettings & {
  /** A password is kept that is not shown. */
  readonly hasPassword?: true
}

export function shownProbe(setting: ProbeSettings): ShownProbe {
  if (setting.kind !== 'mqtt') return setting
  const { password, url, ...rest } = setting
  const shown = { ...rest, url: shownUrl(url) }
  return password === undefined && shown.url === url ? shown : { ...shown, hasPassword: true }
}

/** An address as it may be shown: without the user and password that may stand in it. */
export const shownUrl = (url: string): string => url.replace(/\/\/[^@/]*@/, '//')

/**
 * What was typed over a shown setting, with the login that was kept. It is kept only while broker and user are the
 * same: whoever points the probe at another broker must not be able to send it there.
 */
export function withKeptLogin(typed: unknown, kept: ProbeSettings | null): unknown {
  if (kept?.kind !== 'mqtt' || !isRecord(typed) || typed['kind'] !== 'mqtt') return typed
  const isSame = typed['url'] === shownUrl(kept.url) && typed['user'] === kept.user
  if (!isSame || 'password' in typed) return typed
  const password = kept.password === undefined ? {} : { password: kept.password }
  return { ...typed, url: kept.url, ...password }
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
