import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import type { IClientOptions } from 'mqtt'
import type { SettingsOf } from '#core/wire/probe-settings'
import type { World } from './source.ts'

/** How a broker is entered, or one sentence why it can't be. `role`: tells several clients of this computer apart. */
export function mqttOptions(
  settings: SettingsOf<'mqtt'>,
  world: World,
  role: string,
): IClientOptions | string {
  const { user, password, caFile, version, url } = settings
  const login = user === undefined ? world.brokerLogin(url) : { user, password }
  const ca = caFile === undefined ? null : readCertificate(caFile)
  if (typeof ca === 'string') return ca
  return {
    clientId: `holdfast-${createHash('sha256').update(`${world.machineId} ${role}`).digest('hex').slice(0, 16)}`,
    protocolVersion: version,
    clean: true,
    keepalive: 10,
    connectTimeout: 10_000,
    reconnectPeriod: 0,
    ...(login === null ? {} : { username: login.user, password: login.password ?? '' }),
    ...(ca === null ? {} : { ca: ca.pem }),
  }
}

function readCertificate(file: string): { readonly pem: Buffer } | string {
  try {
    return { pem: readFileSync(file) }
  } catch (error) {
    return `caFile ${file} can't be read: ${error instanceof Error ? error.message.slice(0, 120) : String(error)}`
  }
}
