/** The parts of a piece of advice, already worded. */
export interface HeatUpParts {
  readonly heatDial: string | null
  readonly holdDial: string
  readonly turnDownAt: string
  readonly isNow: boolean
  readonly peak: string
  readonly low: string
  readonly high: string
  readonly reachesAt: string | null
}

export interface HoldParts {
  readonly holdDial: string
  readonly low: string
  readonly high: string
  readonly isSet: boolean
  readonly settles: string | null
  readonly leaves: 'top' | 'bottom' | null
  readonly otherLid: { readonly lid: 'on' | 'off'; readonly dial: string } | null
}

/** All sentences of advice in one language. Each is worded as advice: the dyer turns the dial. */
export interface AdviceCatalogue {
  heatUp(p: HeatUpParts): string
  hold(p: HoldParts): string
  cool(coolTo: string, otherLid: 'on' | 'off', at: string): string
  tooWarm(holdDial: string, low: string, high: string): string
  outOfReach(most: string, lid: 'on' | 'off'): string
  guess(advice: string): string
  losesMore(times: string, lid: 'on' | 'off'): string
  losesLess(times: string): string
  noHeat(): string
  unlike(foundW: string, expectedW: string, isMore: boolean): string
}
