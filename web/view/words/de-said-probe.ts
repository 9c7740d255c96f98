import type { Saying } from './de-said-server.ts'

/** What a bridge says of its probes, what a check of a probe is refused for, and whether the computer may sleep. */
export const SAID_OF_PROBES: readonly Saying[] = [
  [/(.+); what came was (.+)/, '$1; gekommen ist $2'],
  [/readings come/, 'Messwerte kommen'],
  [
    /a retained message: the broker kept it, it may be old/,
    'eine aufgehobene Nachricht: der Broker hat sie behalten, sie kann alt sein',
  ],
  [/(.+) went away; is the plug still in\?/, '$1 ist weg; steckt der Stecker noch?'],
  [/(\d+) registers came in place of (\d+)/, '$1 Register kamen statt $2'],
  [
    /no answer in time; are station number, wires A and B and the baud rate right\?/,
    'keine rechtzeitige Antwort; stimmen Stationsnummer, Adern A und B und Baudrate?',
  ],
  [/station (\d+), register (\d+): (.+)/, 'Station $1, Register $2: $3'],
  [/(.+) is read every (.+) s/, '$1 wird alle $2 s gelesen'],
  [
    /(.+) can't be read; is the one-wire driver switched on\? See (.+)/,
    '$1 lässt sich nicht lesen; ist der Eindraht-Treiber eingeschaltet? Siehe $2',
  ],
  [/no file of this device/, 'keine Datei dieses Geräts'],
  [/simulated/, 'simuliert'],
  [/being opened/, 'wird geöffnet'],
  [/waiting for the first reading/, 'wartet auf den ersten Messwert'],
  [/no reading for (.+)/, 'seit $1 kein Messwert'],
  [/no reading since it was opened (.+) ago/, 'kein Messwert, seit er vor $1 geöffnet wurde'],
  [/it reports (.+); look at its wires/, 'er meldet einen Fehler ($1); sieh nach seinen Drähten'],
  [/(.+) is open/, '$1 ist offen'],
  [/(.+) is played/, '$1 wird abgespielt'],
  [/(.+) has come to its end/, '$1 ist zu Ende'],
  [/(.+) is a simulated pot/, '$1 ist ein simulierter Topf'],
  [/(.+) is subscribed at (.+)/, '$1 ist bei $2 abonniert'],
  [
    /(.+) may not be opened by this user; add the user to the group that owns serial ports \(Debian: (.+)\), then log in again; see docs\/probes\.md/,
    '$1 darf von diesem Benutzer nicht geöffnet werden; nimm ihn in die Gruppe auf, der serielle Anschlüsse gehören (Debian: $2), und meld dich neu an; siehe docs/probes.md',
  ],
  [
    /(.+) is held by another program; end that program, it will be opened by itself then/,
    'ein anderes Programm hält $1; beende es, dann öffnet sich der Anschluss von selbst',
  ],
  [
    /(.+) is not there; is the probe plugged in\? It will be found by itself when it comes/,
    '$1 ist nicht da; ist der Fühler eingesteckt? Kommt er, wird er von selbst gefunden',
  ],
  [
    /no port is (.+); is the probe plugged in\? It will be found by itself when it comes/,
    'kein Anschluss ist $1; ist der Fühler eingesteckt? Kommt er, wird er von selbst gefunden',
  ],
  [
    /(\d+) ports are (.+) \((.+)\); give a serialNumber, or the path below \/dev\/serial\/by-path, to say which/,
    '$1 Anschlüsse sind $2 ($3); gib serialNumber an oder den Pfad unter /dev/serial/by-path, damit klar ist, welcher',
  ],
  [/(.+) can't be opened: (.+)/, '$1 lässt sich nicht öffnen: $2'],
  [
    /a line with bytes that are no text; is the baud rate right\?/,
    'eine Zeile, die kein Text ist; stimmt die Baudrate?',
  ],
  [/a line that is not of the set shape: "(.*)"/, 'eine Zeile, die nicht zum Muster passt: „$1“'],
  [
    /a line with the name "(.*)", which is no probe here/,
    'eine Zeile mit dem Namen „$1“, der hier kein Fühler ist',
  ],
  [
    /the broker says that (.+) has gone; is its battery empty\?/,
    'der Broker meldet, dass $1 weg ist; ist die Batterie leer?',
  ],
  [
    /(.+) ends each connection at once: a second bridge uses the same name there; stop one of the two \(this one waits a minute\)/,
    '$1 beendet jede Verbindung sofort: eine zweite Brücke meldet sich dort unter demselben Namen; halt eine von beiden an (diese wartet eine Minute)',
  ],
  [
    /the broker (.+) refuses user or password; look at "user" and "password" of this probe/,
    'der Broker $1 lehnt Benutzer oder Kennwort ab; sieh nach „user“ und „password“ dieses Fühlers',
  ],
  [
    /the broker (.+) has a certificate that is not trusted here \((.+)\); name its authority with "caFile"/,
    'dem Zertifikat des Brokers $1 wird hier nicht vertraut ($2); nenn seine Stelle mit „caFile“',
  ],
  [
    /no computer is called as in (.+); look at the address/,
    'kein Rechner heißt wie in $1; sieh nach der Adresse',
  ],
  [
    /the broker (.+) does not answer \((.+)\); is it running\?/,
    'der Broker $1 antwortet nicht ($2); läuft er?',
  ],
  [/the broker (.+) does not answer; is it running\?/, 'der Broker $1 antwortet nicht; läuft er?'],
  [
    /the broker (.+) does not allow the topic (.+); look at its access rules/,
    'der Broker $1 erlaubt das Thema $2 nicht; sieh nach seinen Zugriffsregeln',
  ],
  [
    /the reading did not settle within 15 min; stir, pack more ice or boil harder, and begin again/,
    'der Messwert stand auch nach 15 min nicht; rühr um, pack mehr Eis dazu oder koch kräftiger, und fang neu an',
  ],
  [
    /the probe reports faults; look at its wires before checking it/,
    'der Fühler meldet Fehler; sieh nach seinen Drähten, ehe du ihn prüfst',
  ],
  [
    /it settled at (.+) °C where (.+) °C is expected, over (.+) °C off: (.*)/,
    'er blieb bei $1 °C stehen statt bei $2 °C, mehr als $3 °C daneben: $4',
  ],
  [
    /is the tip in the middle of packed ice with water in its gaps\?/,
    'ist die Spitze mitten in gepacktem Eis mit Wasser in den Lücken?',
  ],
  [
    /is it at a rolling boil, with the tip in the water and off the base\?/,
    'kocht es sprudelnd, und ist die Spitze im Wasser und weg vom Boden?',
  ],
  [/are both tips side by side in the stirred pot\?/, 'sind beide Spitzen nebeneinander im gerührten Topf?'],
  [
    /there is no settled check yet; one at least is needed/,
    'noch ist keine Prüfung zum Stehen gekommen; eine braucht es mindestens',
  ],
  [
    /a check is (.+) °C off; a correction is at most (.+) °C, look at the probe/,
    'eine Prüfung liegt $1 °C daneben; eine Korrektur ist höchstens $2 °C groß, sieh nach dem Fühler',
  ],
  [
    /the two checks are (.+) °C apart; at least (.+) °C are needed for a line/,
    'die beiden Prüfungen liegen $1 °C auseinander; für eine Gerade braucht es mindestens $2 °C',
  ],
  [
    /the checks span (.+) °C; at least (.+) °C are needed for a line/,
    'die Prüfungen reichen über $1 °C; für eine Gerade braucht es mindestens $2 °C',
  ],
  [
    /the checks ask to stretch the scale by (.+) %; at most (.+) % is likely, repeat them/,
    'nach diesen Prüfungen wäre die Skala um $1 % zu strecken; glaubhaft sind höchstens $2 %, wiederhol sie',
  ],
  [
    /this computer \((.+)\) is not kept from sleeping; switch its sleep off by hand/,
    'dieser Rechner ($1) wird nicht wach gehalten; schalt seinen Ruhezustand von Hand aus',
  ],
  [/systemd-inhibit is not installed/, 'systemd-inhibit ist nicht installiert'],
  [/systemd-inhibit ended with code (\d+)/, 'systemd-inhibit endete mit $1'],
  [/this computer can't be kept from sleeping: (.+)/, 'dieser Rechner lässt sich nicht wach halten: $1'],
]
