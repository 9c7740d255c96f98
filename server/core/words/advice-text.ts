import type { HeatSense } from '../bath/heat-sense.ts'
import type { DialAdvice, PotAdvice } from '../watch/dial-advice.ts'
import { wordsOf } from './words-of.ts'
import { clockText, decimal, dialMarkText, onScale, tempNumber, tempText } from './numbers.ts'
import type { Person } from './person.ts'

/** What is advised at a pot, a sentence or two each; empty when there is nothing to say. `lid`: as noted. */
export function adviceText(advice: PotAdvice, lid: 'on' | 'off', person: Person): readonly string[] {
  const words = wordsOf(person.language).advice
  const { dial, sense, isGuess } = advice
  const said = dial === null ? [] : [dialText(dial, person)]
  const guessed = isGuess ? said.map((text) => words.guess(text)) : said
  return sense === null ? guessed : [...senseText(sense, lid, person), ...guessed]
}

function dialText(advice: DialAdvice, person: Person): string {
  const words = wordsOf(person.language).advice
  const range = ([lowC, highC]: readonly [number, number]) => ({
    low: wholeNumber(lowC, person),
    high: `${wholeNumber(highC, person)} °${person.unit}`,
  })
  switch (advice.kind) {
    case 'heat-up':
      return words.heatUp({
        heatDial: advice.heatDial === null ? null : dialMarkText(advice.heatDial, person),
        holdDial: dialMarkText(advice.holdDial, person),
        turnDownAt: tempText(advice.turnDownAtC, person),
        isNow: advice.isNow,
        peak: tempNumber(advice.peakC, person),
        ...range(advice.holdsC),
        reachesAt: advice.reachesMs === null ? null : clockText(advice.reachesMs, person),
      })
    case 'hold':
      return words.hold({
        holdDial: dialMarkText(advice.holdDial, person),
        ...range(advice.holdsC),
        isSet: advice.isSet,
        leaves: advice.leaves,
        settles: advice.settlesC === null ? null : tempText(advice.settlesC, person),
        otherLid:
          advice.otherLid === null
            ? null
            : { lid: advice.otherLid.lid, dial: dialMarkText(advice.otherLid.dial, person) },
      })
    case 'cool':
      return words.cool(tempText(advice.coolToC, person), advice.otherLid, clockText(advice.otherMs, person))
    case 'too-warm': {
      const { low, high } = range(advice.holdsC)
      return words.tooWarm(dialMarkText(advice.holdDial, person), low, high)
    }
    case 'out-of-reach':
      return words.outOfReach(tempText(advice.mostC, person), advice.lid)
    default:
      return advice satisfies never
  }
}

function senseText(sense: HeatSense, lid: 'on' | 'off', person: Person): readonly string[] {
  const words = wordsOf(person.language).advice
  switch (sense.kind) {
    case 'as-expected':
      return []
    case 'loses-more':
      return [words.losesMore(decimal(sense.ratio, person), lid)]
    case 'loses-less':
      return [words.losesLess(decimal(sense.ratio, person))]
    case 'no-heat':
      return [words.noHeat()]
    case 'unlike':
      return [words.unlike(wattText(sense.foundW), wattText(sense.expectedW), sense.foundW > sense.expectedW)]
    default:
      return sense satisfies never
  }
}

/** To two figures: more would pretend. */
const wattText = (watts: number): string => `${Number(Math.max(0, watts).toPrecision(2))} W`

/** Whole degrees: a range is no decimal. */
const wholeNumber = (tempC: number, person: Person): string => String(Math.round(onScale(tempC, person)))
