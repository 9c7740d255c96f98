import type { Person } from '#core/words/person'
import type { Settings } from '#core/wire/settings'

/** For whom the server itself words its sentences. */
export const personOf = ({ unit, zone, language }: Settings): Person => ({
  unit,
  zone: zone ?? Intl.DateTimeFormat().resolvedOptions().timeZone,
  language,
})
