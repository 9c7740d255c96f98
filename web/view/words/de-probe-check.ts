import type { enProbeCheck } from './en-probe-check.ts'

/** Checks and corrections of probes, in German. */
export const deProbeCheck: typeof enProbeCheck = {
  check: 'Prüfen',
  checkTitle: (probe) => `${probe} prüfen`,
  checkHelp:
    'Am besten sind zwei Prüfungen weit auseinander: Eiswasser, dann kochendes Wasser. Die Prüfung wartet, bis der Messwert steht. Nimm den Fühler erst aus seinem Bad und notier es.',
  places: { ice: 'Eiswasser', boiling: 'Kochendes Wasser', reference: 'Neben einem guten Thermometer' },
  placeHelp: {
    ice: 'Zerstoßenes Eis dicht packen, die Lücken mit Wasser füllen, ein paar Minuten warten. Die Spitze in die Mitte, ohne die Wand zu berühren. Ein guter Fühler zeigt 0 °C, 32 °F.',
    boiling:
      'Es muss sprudelnd kochen, die Spitze im Wasser und weg vom Boden. Dampf verbrüht: Hand und Kabel heraushalten. Der Wert ist der Siedepunkt auf der Höhe der Werkstatt.',
    reference:
      'Beide Spitzen nebeneinander in einem gerührten Topf, der weder heizt noch kühlt. Gib ein, was der andere zeigt.',
  },
  expected: 'Er sollte zeigen',
  checkStart: 'Der Fühler ist drin: anfangen',
  checkGiveUp: 'Diese Prüfung abbrechen',
  waitsFor: {
    readings: 'Wartet auf Messwerte dieses Fühlers.',
    time: 'Lass ihn drin: mindestens zwei Minuten.',
    steadiness: 'Wartet, bis der Messwert steht.',
  },
  saysNow: (temp) => `Er zeigt jetzt ${temp}, ohne Korrektur.`,
  settled: (raw, expected) => `Er steht: er zeigt ${raw}, richtig ist ${expected}.`,
  checkRefused: (why) => `Diese Prüfung zählt nicht: ${why}.`,
  checksSoFar: 'Prüfungen bisher',
  saveChecks: (n) => (n === 1 ? 'Anwenden: alle Messwerte darum verschieben' : 'Anwenden: die Gerade ziehen'),
  correct: 'Korrektur',
  correctTitle: (probe) => `Korrektur von ${probe}`,
  correctHelp:
    'Für einen Fühler, der anderswo geprüft wurde. Gespeicherte Messwerte behalten, womit sie gespeichert wurden.',
  correctKind: 'Was bekannt ist',
  correctKinds: { offset: 'Ein Unterschied', 'two-point': 'Zwei Punkte' },
  offset: 'Dazuzählen zu dem, was er zeigt',
  lowRaw: 'Unten: er zeigt',
  lowTrue: 'Unten: richtig ist',
  highRaw: 'Oben: er zeigt',
  highTrue: 'Oben: richtig ist',
  validFrom: 'Gilt ab',
  validFromHelp: 'Leer: ab jetzt',
  note: 'Wie es gefunden wurde',
  corrections: 'Korrekturen bisher',
  correctionMade: (what, from, who, made) =>
    `${what}, ab ${from}; eingetragen ${who === '' ? '' : `von ${who}, `}${made}`,
  correctionLine: 'Gerade durch mehrere Punkte',
  saysWhere: (raw, expected) => `${raw}, wo ${expected} richtig ist`,
}
