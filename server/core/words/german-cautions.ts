import type { CautionTexts } from '../plan/cautions.ts'

/** German. */
export const GERMAN_CAUTIONS: CautionTexts = {
  scald: 'Heiße Flotte verbrüht in Sekunden: Deckel vom Körper weg öffnen, nie einen heißen Topf heben.',
  'burner-off':
    'Platte von Hand abdrehen und nachsehen, ob sie aus ist; ein Bad kühlt ohne Hitze oder gar nicht.',
  'never-alone':
    'Nie eine Platte oder Flamme allein lassen, die an ist. Kein Alarm macht das sicher, und dies ist keine Sicherheitseinrichtung.',
  gas: 'Gas nur dort brennen, wo der Brenner stehen darf, mit frischer Luft und einem Kohlenmonoxidmelder.',
  electric:
    'Stecker über dem Topfrand, Kabel mit Tropfschlaufe, jede Dose hinter einem Fehlerstromschutzschalter.',
  'poison-metals':
    'Chrom und Zinn sind giftig und dürfen in keinen Abfluss: in der Werkstatt besser gar nicht.',
  copper:
    'Kupfersalze schaden dem Leben im Wasser: Handschuhe, kein Staub, das Bad entsorgen, wie es der Ort verlangt.',
  iron: 'Eisensalze sind für Kinder gefährlich, wenn sie sie schlucken, und machen Flecken: Handschuhe, wegsperren.',
  'mordant-dust': 'Beizenstaub reizt: Maske und Handschuhe, das Pulver ins Wasser geben, kein Ventilator.',
  alkali: 'Starke Lauge verätzt Haut und Augen: Handschuhe und Brille, langsam in viel Wasser geben.',
  'fine-powder':
    'Feine Pulver schaden der Lunge: Maske und Handschuhe, das Pulver ins Wasser geben, kein Ventilator.',
  reducer:
    'Das Reduktionsmittel gibt Schwefelgase ab und kann feucht Feuer fangen: im Freien, trocken, fern von Säure.',
  acid: 'Säure reizt die Augen und treibt Gas aus Kreide und Soda: langsam zugeben.',
  'codes-first':
    'Örtliche Vorschriften, die Angaben der Hersteller und Fachleute für Strom und Gas gehen allem hier vor.',
}
