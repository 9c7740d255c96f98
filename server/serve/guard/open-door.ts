import type { Settings } from '#core/wire/settings'
import { ListenRefusal } from '../http/listen.ts'
import { isLoopbackHost } from './stranger.ts'

/** A server that others can reach asks them who they are, or it does not start. */
export function refuseOpenDoor({ host, key, passphrase }: Settings): void {
  if (isLoopbackHost(host) || key !== undefined || passphrase !== undefined) return
  throw new ListenRefusal(
    `host is "${host}", which other computers can reach, and neither "key" nor "passphrase" is set; ` +
      'allowed is 127.0.0.1, or another address with one of the two in the settings',
  )
}
