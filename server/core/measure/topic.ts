/** Does an MQTT topic match a filter? `+` is one level, `#` the rest and the level above it; OASIS MQTT 5.0 §4.7. */
export function topicMatches(filter: string, topic: string): boolean {
  // §4.7.2: a leading wildcard doesn't reach topics that begin with $.
  if (topic.startsWith('$') && (filter.startsWith('+') || filter.startsWith('#'))) return false
  const wanted = filter.split('/')
  const levels = topic.split('/')
  for (const [i, want] of wanted.entries()) {
    if (want === '#') return true
    if (i >= levels.length) return false
    if (want !== '+' && want !== levels[i]) return false
  }
  return wanted.length === levels.length
}

/** Level of a filter with the first wildcard, counted from 0; `null` without one. */
export function wildcardLevel(filter: string): number | null {
  const level = filter.split('/').findIndex((part) => part === '+' || part === '#')
  return level < 0 ? null : level
}
