/** `1` while the watch runs; the broker puts `0` there by itself when the server is gone. */
export const ALIVE_TOPIC = 'holdfast/alive'
/** The highest level over all pots, for a studio with one lamp. */
export const LEVEL_TOPIC = 'holdfast/level'
/** One pot's level, a digit, and its alarms, JSON. */
export const levelTopic = (pot: string): string => `holdfast/${topicPart(pot)}/level`
export const alarmTopic = (pot: string): string => `holdfast/${topicPart(pot)}/alarm`

/** A name that can stand between two slashes of a topic: no separator, no wildcard, no control character. */
export const topicPart = (name: string): string =>
  name.replace(/[\s/+#$\p{Cc}]+/gu, '-').replace(/^-+|-+$/g, '') || 'pot'
