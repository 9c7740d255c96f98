import { decodeProbe, type ProbeKind, type SettingsOf } from '#core/wire/probe-settings'

/** Settings of one kind with their defaults filled in, by the decoder that users meet. */
export function settingsOf<K extends ProbeKind>(kind: K, fields: object): SettingsOf<K> {
  const decoded = decodeProbe({ name: 'heron', kind, ...fields })
  if (typeof decoded === 'string') throw new Error(decoded)
  return decoded as SettingsOf<K>
}
