import type { Catalogue } from './catalogue.ts'

/** Getting through to people, in German. */
export const deTell: Catalogue['tell'] = {
  testStrip: 'Probealarm. Hörst du ihn?',
  heard: 'Ich höre ihn',
  somePage: 'eine Seite',
  morning: 'Was die Nacht hinterließ',
  morningSpan: (from, to) => `Von ${from} bis ${to}.`,
  morningBatch: 'Die Partie',
  morningQuiet: 'Nichts ruft nach dir.',
  wakeAt: 'Mein Wecker läutet um',
  liftAt: 'Ich hole Färbegut heraus unter',
  wakeSave: 'Merken',
  wakeHelp: 'Jedes Bad, das abkühlt, sagt dann, ob es bis dahin kühl genug ist.',
  wakeSaved: 'Jedes Bad, das abkühlt, sagt, ob es bis dahin kühl genug ist.',
  whoHears: 'Wer einen Alarm jetzt hören würde',
  pages: (n) =>
    n === 0
      ? 'keine offene Seite mit Ton'
      : n === 1
        ? '1 offene Seite mit Ton'
        : `${n} offene Seiten mit Ton`,
  noPhone: 'kein Telefon über Push',
  phones: (names) => `über Push: ${names}`,
  lamp: { none: 'keine Lampe', connected: 'die Lampe', away: 'der Broker der Lampe ist weg' },
  webhook: 'ein anderes Programm (Webhook)',
  computer: {
    'not-needed': 'Keine Platte ist als an notiert, der Rechner darf also schlafen.',
    'kept-awake': 'Der Rechner bleibt wach, solange eine Platte als an notiert ist.',
    'may-sleep': 'Der Rechner kann einschlafen, und dann wacht niemand.',
  },
  keepAwake: 'So bleibt er wach',
  keepAwakeOn: [
    'Windows: Einstellungen, System, Netzbetrieb: Energiesparmodus auf „Nie“, solange das Netzteil steckt; beim Laptop auch, dass beim Zuklappen nichts geschieht.',
    'macOS: Systemeinstellungen, Batterie oder Energie: Ruhezustand bei ausgeschaltetem Bildschirm verhindern. Für eine Nacht im Terminal: caffeinate -s',
    'Linux: in den Einstellungen der Arbeitsfläche, Energie: automatische Bereitschaft ausschalten. Für eine Nacht im Terminal: systemd-inhibit --what=sleep:idle:handle-lid-switch sleep 14h',
    'Überall: eingesteckt und aufgeklappt lassen.',
  ],
  answered: 'Wer den letzten Probealarm gehört hat',
  nobodyAnswered: 'Noch niemand.',
  answer: (device, at) => `${device}, ${at}`,
  push: 'Dieses Telefon rufen',
  pushStates: {
    on: 'Dieses Telefon wird gerufen, wenn keine Seite einen Alarm hat klingen lassen, auch bei geschlossener Seite.',
    off: 'Bei geschlossener Seite wird dieses Telefon nicht gerufen.',
    refused: 'Mitteilungen sind in diesem Browser verboten, also kann er nicht gerufen werden.',
    cannot:
      'Unter dieser Adresse oder in diesem Browser nicht möglich: Push braucht https, und auf einem iPhone die Seite auf dem Home-Bildschirm.',
  },
  pushOffOnServer: 'Push ist in den Einstellungen des Servers ausgeschaltet.',
  pushFailed: 'Der Browser hat es nicht erlaubt, oder sein Push-Dienst ist nicht zu erreichen.',
  pushAsk: 'Dieses Telefon rufen',
  pushStop: 'Dieses Telefon nicht mehr rufen',
}
