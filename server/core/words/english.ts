import type { AlarmParts, Catalogue, HoldParts, TurnParts } from './catalogue.ts'

const say = (...parts: readonly (string | null | false)[]): string =>
  parts.filter((part) => part !== null && part !== false && part !== '').join('')

const course = (p: AlarmParts): string =>
  p.rate === null ? '' : `, ${p.isRising ? 'rising' : 'falling'} ${p.rate} a minute`

const lastKnown = (p: AlarmParts): string =>
  say(
    p.temp !== null && p.lastAt !== null && ` Last ${p.temp} at ${p.lastAt}`,
    p.dial !== null && burner(p),
  ) || ''

const burner = (p: AlarmParts): string =>
  say(p.temp === null || p.lastAt === null ? ' Burner' : ', burner', ` noted at ${p.dial}`)

const known = (p: AlarmParts): string => {
  const text = lastKnown(p)
  return text === '' ? '' : `${text}.`
}

const minutes = (n: number): string => `${n} min`

function holdWords(p: HoldParts): string {
  const inside = say(`${p.inMin} in the window`)
  const below = say(
    `${p.belowMin} below`,
    p.lowest !== null && ` (lowest ${p.lowest.temp}, ${p.lowest.under} under)`,
  )
  const above = say(
    `${p.aboveMin} above`,
    p.highest !== null && ` (highest ${p.highest.temp}, ${p.highest.over} over)`,
  )
  const rest = [
    inside,
    below,
    (p.aboveMin > 0 || p.highest !== null) && above,
    p.outMin > 0 && `${p.outMin} with the goods out`,
    `${p.unknownMin} unknown`,
  ].filter((part) => part !== false)
  const ceiling = p.overCeiling === null ? 'Not over the ceiling.' : `Over the ceiling for ${p.overCeiling}.`
  return `${minutes(p.clockMin)} by the clock: ${rest.join(', ')}. ${ceiling}`
}

function turnWords(turn: TurnParts | null): string {
  const usual = 'Turn the burner down now; the bath will coast on into the window.'
  if (turn === null || (turn.to === null && turn.isLearned)) return usual
  if (!turn.isLearned)
    return `${usual} To ${turn.to === null ? 'which mark' : `about ${turn.to}`}? This burner is not learned yet.`
  const coasts = turn.peak === null ? 'the bath coasts on into the window' : `it coasts to ${turn.peak}`
  return `Turn down ${turn.from === null ? '' : `from ${turn.from} `}to about ${turn.to} now; ${coasts}.`
}

/** English. Every alarm sentence: the pot, the fact, the number, the limit, since when. */
export const ENGLISH: Catalogue = {
  alarms: {
    'above-window': (p) =>
      `${p.pot}: ${p.temp}, window ends at ${p.limit}${course(p)}, over it since ${p.since}.`,
    'below-window': (p) =>
      `${p.pot}: ${p.temp}, window begins at ${p.limit}${course(p)}, under it since ${p.since}.`,
    'above-ceiling': (p) => `${p.pot}: ${p.temp}, ceiling ${p.limit}${course(p)}, over it since ${p.since}.`,
    'heading-above-window': (p) =>
      `${p.pot}: ${p.temp}${course(p)}; at this pace it leaves the window (${p.limit}) at about ${p.expected}.`,
    'heading-above-ceiling': (p) =>
      `${p.pot}: ${p.temp}${course(p)}; at this pace it passes the ceiling (${p.limit}) at about ${p.expected}.`,
    'heating-too-fast': (p) =>
      `${p.pot}: ${p.temp}, heating by ${p.rate} a minute since ${p.since}, faster than planned.`,
    'cooling-too-fast': (p) =>
      `${p.pot}: ${p.temp}, cooling by ${p.rate} a minute since ${p.since}, faster than planned.`,
    'no-heat': (p) => `${p.pot}: still ${p.temp}, though the burner is noted at ${p.dial}.`,
    'not-cooling': (p) => `${p.pot} should be cooling and is not: ${p.temp}${course(p)}, since ${p.since}.`,
    'unplanned-heating': (p) =>
      `${p.pot} is heating and isn't meant to: ${p.temp}${course(p)}, since ${p.since}.`,
    'near-boil': (p) => `${p.pot}: ${p.temp}, close to boiling since ${p.since}.`,
    'boil-dry': (p) => `${p.pot}: ${p.temp}, hotter than water can boil here. It may have boiled dry.`,
    'probe-silent': (p) => `${p.pot}: no reading for ${p.lasted}.${known(p)}`,
    'probe-out': (p) => `${p.pot}: the probe seems out of the bath since ${p.since}.${known(p)}`,
    'probe-stuck': (p) => `${p.pot}: the reading has been exactly ${p.temp} since ${p.since}.`,
    'probe-fault': (p) => `${p.pot}: the probe sends fault codes since ${p.since}.${known(p)}`,
    'wrong-burner': ({ each: [hot, cold], since }) =>
      `${hot?.name} has been warming up since ${since} and should not; ${cold?.name} should, and does not.`,
    'probes-swapped': ({ each, since }) =>
      `${each.map(reads).join(', ')}: they changed places within a minute, at ${since}.`,
    'power-lost': (p) => `${p.pots} stopped heating together at ${p.since}.`,
    'bridge-lost': (p) => `${p.pots}: no readings from any probe for ${p.lasted}.`,
  },
  acts: {
    'above-window': 'Turn the burner down or lift the lid.',
    'below-window': 'Turn the burner up a little, or put the lid on.',
    'above-ceiling': 'Turn the burner down or off and lift the lid.',
    'heading-above-window': 'Turn the burner down.',
    'heading-above-ceiling': 'Turn the burner down now.',
    'heating-too-fast': 'Turn the burner down.',
    'cooling-too-fast': 'Put the lid on, and keep cold water away.',
    'no-heat': 'Look at the burner and the plug.',
    'not-cooling': 'Go and look that the burner is off.',
    'unplanned-heating': 'Look at the burner under this pot.',
    'near-boil': 'Turn the burner down and look at the level.',
    'boil-dry': 'Turn the burner off. Do not pour cold water into a dry hot pot.',
    'probe-silent': 'Look at the pot, and whether the probe is plugged in.',
    'probe-out': 'Hang the probe back into the bath.',
    'probe-stuck': 'Check with a second thermometer and replug the probe.',
    'probe-fault': 'Look at the cable and the plug of the probe.',
    'wrong-burner': 'Check which knob was turned.',
    'probes-swapped': 'Look at both pots; a bath really over its ceiling cannot be ruled out.',
    'power-lost': 'Look at the circuit breaker; turn the dials off before switching it on again.',
    'bridge-lost': 'Look at the pots, then at the computer that the probes are plugged into.',
  },
  actsTo: {
    'above-window': (mark) => `Turn the burner down to about ${mark}, or lift the lid.`,
    'below-window': (mark) => `Turn the burner up to about ${mark}, or put the lid on.`,
    'heading-above-window': (mark) => `Turn the burner down to about ${mark}.`,
    'heading-above-ceiling': (mark) => `Turn the burner down now, to about ${mark}.`,
  },
  aboutAMinute: 'about a minute',
  reasons: {
    'burner-up': 'Is the burner too high?',
    'burner-off': 'Was the burner turned off too soon?',
    'lid-off': 'Is the lid off?',
    'probe-out': 'Was the probe lifted out?',
    'probe-unplugged': 'Is the probe unplugged?',
    'wrong-burner': 'Is it the right burner?',
    'probes-swapped': 'Did the probes change places?',
    power: 'Is the power off?',
    'heat-on': 'Is a burner on?',
    'hot-water-poured': 'Was hot water poured in?',
    'cold-water-poured': 'Was cold water poured in?',
    'bridge-gone': 'Is that computer asleep or off?',
  },
  cleared: (name, p) => say(`${p.pot}: ${name} is over`, p.temp !== null && `, now ${p.temp}`, '.'),
  alarmNames: {
    'above-window': 'too warm for the window',
    'below-window': 'too cool for the window',
    'above-ceiling': 'over the ceiling',
    'heading-above-window': 'heading out of the window',
    'heading-above-ceiling': 'nearing the ceiling',
    'heating-too-fast': 'heating too fast',
    'cooling-too-fast': 'cooling too fast',
    'no-heat': 'not heating',
    'not-cooling': 'not cooling',
    'unplanned-heating': 'heating unplanned',
    'near-boil': 'close to boiling',
    'boil-dry': 'perhaps boiled dry',
    'probe-silent': 'no reading',
    'probe-out': 'probe out of the bath',
    'probe-stuck': 'reading stuck',
    'probe-fault': 'probe fault',
    'wrong-burner': 'wrong burner',
    'probes-swapped': 'probes swapped',
    'power-lost': 'power lost',
    'bridge-lost': 'no readings at all',
  },
  notices: {
    'stage-started': (p) => `${p.pot}: ${p.stage} has begun.`,
    'at-window': (p) =>
      say(
        `${p.pot}: the window is reached`,
        p.temp !== null && `, ${p.temp}`,
        p.holdFollows
          ? '. The hold counts once the bath has stayed there for 3 minutes.'
          : '. The goods can go in.',
      ),
    'turn-down-now': (p) => say(`${p.pot}: `, p.temp !== null && `${p.temp}. `, turnWords(p.turn)),
    'hold-started': (p) =>
      say(`${p.pot}: the hold has begun`, p.since !== null && `, counted from ${p.since}`, '.'),
    'hold-paused': (p) =>
      say(
        `${p.pot}: the hold stands still`,
        p.since !== null && ` since ${p.since}`,
        p.temp !== null && `, ${p.temp}`,
        '.',
      ),
    'hold-resumed': (p) =>
      say(`${p.pot}: the hold counts again`, p.since !== null && ` since ${p.since}`, '.'),
    'hold-done': (p) =>
      say(
        `${p.pot}: the hold is done`,
        p.due !== null && ` since ${p.due}`,
        p.temp !== null && `, still ${p.temp}`,
        '. Turn the burner off.',
      ),
    'turn-due': (p) => `${p.pot}: turn the goods.`,
    'out-by-due': (p) =>
      say(`${p.pot}: the goods should come out now`, p.due !== null && ` (out by ${p.due})`, '.'),
    'cool-enough': (p) =>
      say(`${p.pot}: cool enough to lift the goods`, p.temp !== null && `, ${p.temp}`, '.'),
    'probe-back': (p) =>
      say(`${p.pot}: the probe is back in the bath`, p.temp !== null && `, ${p.temp}`, '.'),
  },
  hold: holdWords,
}

function reads({ name, temp }: AlarmParts['each'][number]): string {
  return temp === null ? name : `${name} reads ${temp}`
}
