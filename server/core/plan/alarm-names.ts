/** An alarm asks for an act. */
export const ALARM_NAMES = [
  'above-window',
  'below-window',
  'above-ceiling',
  'heading-above-window',
  'heading-above-ceiling',
  'heating-too-fast',
  'cooling-too-fast',
  'no-heat',
  'not-cooling',
  'unplanned-heating',
  'near-boil',
  'boil-dry',
  'probe-silent',
  'probe-out',
  'probe-stuck',
  'probe-fault',
  'wrong-burner',
  'probes-swapped',
  'power-lost',
  'bridge-lost',
] as const
export type AlarmName = (typeof ALARM_NAMES)[number]

/**
 * Alarms that nobody may shelve, put out of service or delay for long: over the ceiling the goods are lost, and heat in
 * a cool-down is a burner on while people sleep. `probes-swapped` stands in for the ceiling alarms of its pots, so it is
 * bound as they are.
 */
export const NEVER_SHELVED: readonly AlarmName[] = ['above-ceiling', 'not-cooling', 'probes-swapped']

/** A notice tells. */
export const NOTICE_NAMES = [
  'stage-started',
  'at-window',
  'turn-down-now',
  'hold-started',
  'hold-paused',
  'hold-resumed',
  'hold-done',
  'turn-due',
  'out-by-due',
  'cool-enough',
  'probe-back',
] as const
export type NoticeName = (typeof NOTICE_NAMES)[number]

/** How soon a person must act. */
export type Urgency = 'at-once' | 'soon' | 'morning' | 'log'

/** What a plan or the settings may change of an alarm; seconds and °C, what is left out keeps its default. */
export interface AlarmSetting {
  readonly onDelayS?: number
  readonly offDelayS?: number
  readonly deadbandC?: number
  /** `false`: out of service. Not allowed for alarms that may never be shelved. */
  readonly inService?: boolean
}
