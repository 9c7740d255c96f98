import type { PotView } from '../pot-view.ts'
import { hasWindow, middleC } from '../stage-window.ts'

/** Time to walk to the pot and turn the dial before "turn it down" counts as unheeded. */
const HEED_MS = 2 * 60_000

/**
 * Does it matter where the bath is heading? In a hold it does. On the first rise into the window a bath heads for
 * every limit above it, as every good day looks; it runs on in earnest once it is past the middle and rises on as
 * before, two minutes after "turn down now" was said, or after the dial was turned down for it.
 */
export function mayHead(view: PotView): boolean {
  const { turnDown } = view.pot.notes
  return turnDown === null || turnDown.isHeeded ? isInHold(view) : runsOn(view, turnDown)
}

const isInHold = ({ run, stage, pot }: PotView): boolean =>
  stage?.kind === 'keep-warm' ? pot.notes.atWindowMs !== null : (run?.trace.clock?.beganMs ?? null) !== null

type TurnDown = NonNullable<PotView['pot']['notes']['turnDown']>

function runsOn({ stage, pot, atMs, dial, tempC }: PotView, turnDown: TurnDown): boolean {
  if (stage === null || !hasWindow(stage) || tempC === null || tempC < middleC(stage)) return false
  const isTurnedDown = dial !== null && turnDown.dial !== null && dial < turnDown.dial
  const heedFromMs = isTurnedDown ? Math.max(turnDown.atMs, pot.dial?.notedMs ?? 0) : turnDown.atMs
  return atMs - heedFromMs >= HEED_MS
}
