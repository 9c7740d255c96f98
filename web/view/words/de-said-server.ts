/** A sentence as the program says it, as a pattern of the whole of it, and the same in German: `$1` is its first part. */
export type Saying = readonly [english: RegExp, german: string]

/** What the server refuses, and why nothing is recorded. */
export const SAID_BY_SERVER: readonly Saying[] = [
  [/the server can’t be reached/, 'der Server ist nicht zu erreichen'],
  [/the server did not answer/, 'der Server hat nicht geantwortet'],
  [/the server answered (\d+)/, 'der Server hat mit $1 geantwortet'],
  [
    /this did not work; the log says why under (.+)/,
    'es ging nicht; warum, steht im Protokoll des Servers unter $1',
  ],
  [/there is no batch (\d+)/, 'eine Partie $1 gibt es nicht'],
  [/there is no plan (\d+)(?: version (\d+))?/, 'einen Plan $1 in dieser Fassung gibt es nicht'],
  [/there is no pot "(.*)"/, 'einen Topf „$1“ gibt es nicht'],
  [
    /there is no probe "(.*)": nothing has come from it and no settings name it; (.*)\. Let it send once, or add it on the probes page/,
    'einen Fühler „$1“ gibt es nicht: von ihm kam noch nichts, und keine Einstellung nennt ihn; $2. Lass ihn einmal senden, oder nimm ihn auf der Fühlerseite auf',
  ],
  [/known are (.*)/, 'bekannt sind $1'],
  [/none is known yet/, 'noch ist keiner bekannt'],
  [/there is no probe "(.*)"/, 'einen Fühler „$1“ gibt es nicht'],
  [/there is no lot (\d+)/, 'ein Los $1 gibt es nicht'],
  [/there is no alarm (\d+)/, 'einen Alarm $1 gibt es nicht'],
  [/there is no event (\d+) that still stands/, 'das ist schon zurückgenommen'],
  [/there is no event (\d+) in batch (\d+)/, 'in Partie $2 ist das nicht notiert'],
  [/there is no setting for probe "(.*)"/, 'für den Fühler „$1“ gibt es keine Einstellung'],
  [/there is no such photo/, 'dieses Foto gibt es nicht'],
  [/there is no such page/, 'diese Seite gibt es nicht'],
  [/there is no such phone on the list/, 'dieses Telefon steht nicht auf der Liste'],
  [/there is no address (.*)/, 'die Adresse $1 gibt es nicht'],
  [/batch (\d+) has ended already/, 'Partie $1 ist schon beendet'],
  [
    /a stage is running in this pot; end its batch first/,
    'in diesem Topf läuft eine Stufe; beende erst ihre Partie',
  ],
  [
    /the time (.*) lies ahead; allowed is now or earlier/,
    'diese Zeit liegt noch vor uns; erlaubt ist jetzt oder früher',
  ],
  [
    /stage "(.*)" began after that time; a stage begins after the one before it/,
    'die Stufe „$1“ begann erst danach; eine Stufe beginnt nach der vorigen',
  ],
  [
    /the plan of batch (\d+) has no stage "(.*)"; it has (.*)/,
    'der Plan der Partie $1 hat keine Stufe „$2“; er hat $3',
  ],
  [
    /batch (\d+) is in no pot yet; begin a stage first/,
    'Partie $1 ist noch in keinem Topf; beginn erst eine Stufe',
  ],
  [
    /batch (\d+) has run already; allowed is one that has not/,
    'Partie $1 ist schon gelaufen; es braucht eine, die noch nicht lief',
  ],
  [
    /batch (\d+) has no dry weight, so that nothing can be scaled from it/,
    'Partie $1 hat kein Trockengewicht, darum lässt sich nichts umrechnen',
  ],
  [
    /the begin of a stage and the end of a batch can’t be taken back/,
    'der Beginn einer Stufe und das Ende einer Partie lassen sich nicht zurücknehmen',
  ],
  [/stages begin and end in a batch: use its own addresses/, 'Stufen beginnen und enden in einer Partie'],
  [
    /replaces is (.*); allowed is the id of a line of this batch/,
    'diese Zeile gehört zu einer anderen Partie',
  ],
  [/the evening of this pot is running already/, 'der Abend mit diesem Topf läuft schon'],
  [
    /this pot has no vessel: give its litres and its dial first/,
    'gib diesem Topf erst seine Liter und seinen Regler',
  ],
  [/no probe hangs in this pot/, 'in diesem Topf hängt kein Fühler'],
  [
    /the probe of this pot sends no reading of a bath now/,
    'der Fühler dieses Topfs sendet gerade nichts aus einem Bad',
  ],
  [
    /a stage is running in this pot; the evening needs plain water and no batch/,
    'in diesem Topf läuft eine Stufe; der Abend braucht klares Wasser und keine Partie',
  ],
  [
    /the water is over (.+) °C; the evening begins with cold water/,
    'das Wasser hat über $1 °C; der Abend beginnt mit kaltem',
  ],
  [/no evening is running at this pot/, 'mit diesem Topf läuft kein Abend'],
  [
    /this pot has no vessel: give its litres and the highest number on its dial first/,
    'gib diesem Topf erst seine Liter und die höchste Zahl an seinem Regler',
  ],
  [
    /the bath of this pot is not seen now; give its temperature as bathC/,
    'das Bad dieses Topfs ist gerade nicht zu sehen; gib seine Temperatur an',
  ],
  [/this alarm is over and done with/, 'dieser Alarm ist vorbei'],
  [/[\w-]+ was acknowledged already.*/, 'diesen Alarm hat schon jemand beantwortet'],
  [/[\w-]+ is over and needs no acknowledgement/, 'dieser Alarm ist vorbei und braucht keine Antwort'],
  [/[\w-]+ is shelved; take it off the shelf first/, 'dieser Alarm hat gerade Ruhe'],
  [
    /[\w-]+ is out of service(?: already|; put it back in service first)/,
    'dieser Alarm ist nicht in Betrieb',
  ],
  [
    /[\w-]+ is out of service and makes no sound, so it can't be shelved/,
    'dieser Alarm ist nicht in Betrieb und klingt nicht',
  ],
  [/[\w-]+ is never taken out of service/, 'dieser Alarm bleibt immer in Betrieb'],
  [/[\w-]+ is in service already/, 'dieser Alarm ist schon in Betrieb'],
  [/[\w-]+ is not shelved, so it can't be taken off the shelf/, 'dieser Alarm hat gar keine Ruhe'],
  [/too many tests; wait a minute/, 'zu viele Probealarme; warte eine Minute'],
  [/too many tries; wait a minute/, 'zu viele Versuche; warte eine Minute'],
  [/this is not the passphrase/, 'das ist nicht das Kennwort'],
  [
    /there are (\d+) phones already; take one off the list first/,
    'es sind schon $1 Telefone; nimm erst eines von der Liste',
  ],
  [
    /push is off; write "push": \{\} into the settings/,
    'Push ist aus; schreib "push": {} in die Einstellungen',
  ],
  [/the body is no photo; allowed are (.*)/, 'das ist kein Foto; erlaubt sind $1'],
  [
    /the body is larger than (\d+) kB, which is allowed at most/,
    'das ist zu groß; erlaubt sind höchstens $1 kB',
  ],
  [
    /the result of batch (\d+) has no colour in CIELAB yet/,
    'das Ergebnis der Partie $1 hat noch keine Farbe',
  ],
  [
    /a photo needs a grey card or the reference swatch in it/,
    'im Foto muss eine Graukarte oder das Vergleichsmuster liegen',
  ],
  [
    /a patch is too dark: take the photo again with more light/,
    'eine Stelle ist zu dunkel: fotografier noch einmal mit mehr Licht',
  ],
  [
    /the known patches show no red, no green or no blue at all; add a grey card/,
    'in den bekannten Stellen fehlt Rot, Grün oder Blau ganz; leg eine Graukarte dazu',
  ],
  [/a patch without pixels has no colour/, 'diese Stelle ist leer'],
  [
    /a patch is blown out: take the photo again with less light or out of the sun/,
    'eine Stelle ist überstrahlt: fotografier noch einmal mit weniger Licht oder nicht in der Sonne',
  ],
  [/there is a pot "(.*)" already/, 'einen Topf „$1“ gibt es schon'],
  [
    /probe "(.*)" stands in the settings file; (.*)/,
    'der Fühler „$1“ steht in der Datei der Einstellungen; $2',
  ],
  [/change it there/, 'änder ihn dort'],
  [/take it out there/, 'nimm ihn dort heraus'],
  [
    /a stage runs in (.*), where it hangs; end its batch, or hang the probe elsewhere first/,
    'in $1, wo er hängt, läuft eine Stufe; beende erst ihre Partie oder häng den Fühler anderswo hin',
  ],
  [
    /stage "(.*)": .* is (.*); allowed is a number from (.*) to (.*) °C/,
    'Stufe „$1“: $2 geht nicht; erlaubt ist eine Zahl von $3 bis $4 °C',
  ],
  [
    /the disk is full: nothing is being recorded; make room on it/,
    'die Platte des Rechners ist voll: nichts wird aufgezeichnet; schaff Platz darauf',
  ],
  [
    /the data folder can’t be written to: nothing is being recorded; make it writable again/,
    'in den Ordner mit den Daten lässt sich nicht schreiben: nichts wird aufgezeichnet; mach ihn wieder beschreibbar',
  ],
  [
    /the disk refuses writes \((.*)\): nothing is being recorded; look whether it is full or failing/,
    'die Platte des Rechners nimmt nichts an ($1): nichts wird aufgezeichnet; sieh nach, ob sie voll oder defekt ist',
  ],
  [
    /another program holds the database: nothing is being recorded; close that program/,
    'ein anderes Programm hält die Datenbank: nichts wird aufgezeichnet; schließ jenes Programm',
  ],
]
