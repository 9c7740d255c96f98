import type { AlarmParts, Catalogue, HoldParts, TurnParts } from './catalogue.ts'

const say = (...parts: readonly (string | null | false)[]): string =>
  parts.filter((part) => part !== null && part !== false && part !== '').join('')

const course = (p: AlarmParts): string =>
  p.rate === null ? '' : `, ${p.isRising ? 'steigt' : 'fällt'} um ${p.rate} je Minute`

const known = (p: AlarmParts): string => {
  const last = p.temp !== null && p.lastAt !== null && `zuletzt ${p.temp} um ${p.lastAt}`
  const dial = p.dial !== null && `Regler notiert auf ${p.dial}`
  const text = [last, dial].filter((part) => part !== false).join(', ')
  return text === '' ? '' : ` ${text[0]!.toUpperCase()}${text.slice(1)}.`
}

function holdWords(p: HoldParts): string {
  const below = say(
    `${p.belowMin} darunter`,
    p.lowest !== null && ` (tiefste ${p.lowest.temp}, ${p.lowest.under} zu wenig)`,
  )
  const above = say(
    `${p.aboveMin} darüber`,
    p.highest !== null && ` (höchste ${p.highest.temp}, ${p.highest.over} zu viel)`,
  )
  const rest = [
    `${p.inMin} im Fenster`,
    below,
    (p.aboveMin > 0 || p.highest !== null) && above,
    p.outMin > 0 && `${p.outMin} ohne Färbegut`,
    `${p.unknownMin} unbekannt`,
  ].filter((part) => part !== false)
  const ceiling =
    p.overCeiling === null ? 'Nie über der Obergrenze.' : `${p.overCeiling} über der Obergrenze.`
  return `${p.clockMin} min nach der Uhr: ${rest.join(', ')}. ${ceiling}`
}

function turnWords(turn: TurnParts | null): string {
  const usual = 'Jetzt zurückdrehen; das Bad steigt von selbst ins Fenster weiter.'
  if (turn === null || (turn.to === null && turn.isLearned)) return usual
  if (!turn.isLearned)
    return `${usual} Auf ${turn.to === null ? 'welchen Strich' : `etwa ${turn.to}`}? Diese Platte ist noch nicht eingelernt.`
  const coasts = turn.peak === null ? 'das Bad steigt ins Fenster weiter' : `es steigt noch bis ${turn.peak}`
  return `Jetzt ${turn.from === null ? '' : `von ${turn.from} `}auf etwa ${turn.to} zurückdrehen; ${coasts}.`
}

/** German. The same facts in the same order as in English. */
export const GERMAN: Catalogue = {
  alarms: {
    'above-window': (p) =>
      `${p.pot}: ${p.temp}, das Fenster endet bei ${p.limit}${course(p)}, darüber seit ${p.since}.`,
    'below-window': (p) =>
      `${p.pot}: ${p.temp}, das Fenster beginnt bei ${p.limit}${course(p)}, darunter seit ${p.since}.`,
    'above-ceiling': (p) =>
      `${p.pot}: ${p.temp}, Obergrenze ${p.limit}${course(p)}, darüber seit ${p.since}.`,
    'heading-above-window': (p) =>
      `${p.pot}: ${p.temp}${course(p)}; so verlässt es das Fenster (${p.limit}) gegen ${p.expected}.`,
    'heading-above-ceiling': (p) =>
      `${p.pot}: ${p.temp}${course(p)}; so kommt es über die Obergrenze (${p.limit}) gegen ${p.expected}.`,
    'heating-too-fast': (p) =>
      `${p.pot}: ${p.temp}, heizt seit ${p.since} um ${p.rate} je Minute, schneller als geplant.`,
    'cooling-too-fast': (p) =>
      `${p.pot}: ${p.temp}, kühlt seit ${p.since} um ${p.rate} je Minute, schneller als geplant.`,
    'no-heat': (p) => `${p.pot}: noch immer ${p.temp}, obwohl der Regler auf ${p.dial} notiert ist.`,
    'not-cooling': (p) =>
      `${p.pot} sollte abkühlen und tut es nicht: ${p.temp}${course(p)}, seit ${p.since}.`,
    'unplanned-heating': (p) => `${p.pot} heizt, ohne dass es soll: ${p.temp}${course(p)}, seit ${p.since}.`,
    'near-boil': (p) => `${p.pot}: ${p.temp}, seit ${p.since} kurz vor dem Kochen.`,
    'boil-dry': (p) =>
      `${p.pot}: ${p.temp}, heißer, als Wasser hier kochen kann. Der Topf ist vielleicht leergekocht.`,
    'probe-silent': (p) => `${p.pot}: seit ${p.lasted} keine Messwerte.${known(p)}`,
    'probe-out': (p) => `${p.pot}: der Fühler scheint seit ${p.since} nicht im Bad zu sein.${known(p)}`,
    'probe-stuck': (p) => `${p.pot}: der Messwert ist seit ${p.since} genau ${p.temp}.`,
    'probe-fault': (p) => `${p.pot}: der Fühler sendet seit ${p.since} Fehlerzeichen.${known(p)}`,
    'wrong-burner': ({ each: [hot, cold], since }) =>
      `${hot?.name} wird seit ${since} warm und soll es nicht; ${cold?.name} soll, und wird es nicht.`,
    'probes-swapped': ({ each, since }) =>
      `${each.map(reads).join(', ')}: die Werte haben um ${since} binnen einer Minute getauscht.`,
    'power-lost': (p) => `${p.pots} hörten um ${p.since} zugleich auf zu heizen.`,
    'bridge-lost': (p) => `${p.pots}: seit ${p.lasted} von keinem Fühler Messwerte.`,
  },
  acts: {
    'above-window': 'Regler zurückdrehen oder Deckel abheben.',
    'below-window': 'Regler etwas aufdrehen oder Deckel auflegen.',
    'above-ceiling': 'Regler zurück- oder abdrehen und Deckel abheben.',
    'heading-above-window': 'Regler zurückdrehen.',
    'heading-above-ceiling': 'Jetzt den Regler zurückdrehen.',
    'heating-too-fast': 'Regler zurückdrehen.',
    'cooling-too-fast': 'Deckel auflegen, kein kaltes Wasser dazu.',
    'no-heat': 'Nach Platte und Stecker sehen.',
    'not-cooling': 'Hingehen und nachsehen, ob die Platte aus ist.',
    'unplanned-heating': 'Nach der Platte unter diesem Topf sehen.',
    'near-boil': 'Regler zurückdrehen und nach dem Wasserstand sehen.',
    'boil-dry': 'Platte abdrehen. Kein kaltes Wasser in einen leeren heißen Topf gießen.',
    'probe-silent': 'Nach dem Topf sehen, und ob der Fühler eingesteckt ist.',
    'probe-out': 'Fühler wieder ins Bad hängen.',
    'probe-stuck': 'Mit einem zweiten Thermometer prüfen und den Fühler neu einstecken.',
    'probe-fault': 'Nach Kabel und Stecker des Fühlers sehen.',
    'wrong-burner': 'Nachsehen, welcher Regler gedreht wurde.',
    'probes-swapped': 'Nach beiden Töpfen sehen; eines kann wirklich über seiner Obergrenze sein.',
    'power-lost': 'Nach der Sicherung sehen; vor dem Einschalten alle Regler abdrehen.',
    'bridge-lost': 'Nach den Töpfen sehen, dann nach dem Rechner, an dem die Fühler stecken.',
  },
  actsTo: {
    'above-window': (mark) => `Regler auf etwa ${mark} zurückdrehen oder Deckel abheben.`,
    'below-window': (mark) => `Regler auf etwa ${mark} aufdrehen oder Deckel auflegen.`,
    'heading-above-window': (mark) => `Regler auf etwa ${mark} zurückdrehen.`,
    'heading-above-ceiling': (mark) => `Jetzt den Regler auf etwa ${mark} zurückdrehen.`,
  },
  aboutAMinute: 'etwa einer Minute',
  reasons: {
    'burner-up': 'Ist der Regler zu hoch?',
    'burner-off': 'Wurde zu früh abgedreht?',
    'lid-off': 'Ist der Deckel ab?',
    'probe-out': 'Wurde der Fühler herausgenommen?',
    'probe-unplugged': 'Ist der Fühler ausgesteckt?',
    'wrong-burner': 'Ist es die richtige Platte?',
    'probes-swapped': 'Wurden die Fühler vertauscht?',
    power: 'Ist der Strom weg?',
    'heat-on': 'Ist eine Platte an?',
    'hot-water-poured': 'Wurde heißes Wasser zugegossen?',
    'cold-water-poured': 'Wurde kaltes Wasser zugegossen?',
    'bridge-gone': 'Schläft dieser Rechner, oder ist er aus?',
  },
  cleared: (name, p) => say(`${p.pot}: „${name}“ ist vorbei`, p.temp !== null && `, jetzt ${p.temp}`, '.'),
  alarmNames: {
    'above-window': 'zu warm für das Fenster',
    'below-window': 'zu kühl für das Fenster',
    'above-ceiling': 'über der Obergrenze',
    'heading-above-window': 'auf dem Weg aus dem Fenster',
    'heading-above-ceiling': 'nah an der Obergrenze',
    'heating-too-fast': 'heizt zu schnell',
    'cooling-too-fast': 'kühlt zu schnell',
    'no-heat': 'heizt nicht',
    'not-cooling': 'kühlt nicht',
    'unplanned-heating': 'heizt ungeplant',
    'near-boil': 'kurz vor dem Kochen',
    'boil-dry': 'vielleicht leergekocht',
    'probe-silent': 'keine Messwerte',
    'probe-out': 'Fühler nicht im Bad',
    'probe-stuck': 'Messwert steht still',
    'probe-fault': 'Fühler gestört',
    'wrong-burner': 'falsche Platte',
    'probes-swapped': 'Fühler vertauscht',
    'power-lost': 'Strom weg',
    'bridge-lost': 'gar keine Messwerte',
  },
  notices: {
    'stage-started': (p) => `${p.pot}: ${p.stage} hat begonnen.`,
    'at-window': (p) =>
      say(
        `${p.pot}: das Fenster ist erreicht`,
        p.temp !== null && `, ${p.temp}`,
        p.holdFollows
          ? '. Die Haltezeit zählt, sobald das Bad 3 Minuten darin geblieben ist.'
          : '. Das Färbegut kann hinein.',
      ),
    'turn-down-now': (p) => say(`${p.pot}: `, p.temp !== null && `${p.temp}. `, turnWords(p.turn)),
    'hold-started': (p) =>
      say(`${p.pot}: die Haltezeit hat begonnen`, p.since !== null && `, gezählt ab ${p.since}`, '.'),
    'hold-paused': (p) =>
      say(
        `${p.pot}: die Haltezeit steht still`,
        p.since !== null && ` seit ${p.since}`,
        p.temp !== null && `, ${p.temp}`,
        '.',
      ),
    'hold-resumed': (p) =>
      say(`${p.pot}: die Haltezeit zählt wieder`, p.since !== null && ` seit ${p.since}`, '.'),
    'hold-done': (p) =>
      say(
        `${p.pot}: die Haltezeit ist um`,
        p.due !== null && ` seit ${p.due}`,
        p.temp !== null && `, noch ${p.temp}`,
        '. Platte abdrehen.',
      ),
    'turn-due': (p) => `${p.pot}: Färbegut wenden.`,
    'out-by-due': (p) =>
      say(`${p.pot}: das Färbegut sollte jetzt heraus`, p.due !== null && ` (bis ${p.due})`, '.'),
    'cool-enough': (p) =>
      say(`${p.pot}: kühl genug, um das Färbegut herauszunehmen`, p.temp !== null && `, ${p.temp}`, '.'),
    'probe-back': (p) => say(`${p.pot}: der Fühler ist wieder im Bad`, p.temp !== null && `, ${p.temp}`, '.'),
  },
  hold: holdWords,
}

function reads({ name, temp }: AlarmParts['each'][number]): string {
  return temp === null ? name : `${name} zeigt ${temp}`
}
