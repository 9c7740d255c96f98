import type { PlanWarningCatalogue } from './plan-warning-catalogue.ts'

const fibres = { wool: 'Wolle', silk: 'Seide', cellulose: 'Pflanzenfaser' } as const

/** German. */
export const GERMAN_PLAN_WARNINGS: PlanWarningCatalogue = {
  fibres,
  at: (stage, sentence) => `Stufe „${stage}“: ${sentence}`,
  sentences: {
    'ceiling-over-fibre': (w, n) =>
      `die Obergrenze von ${n.temp(w.ceilingC)} liegt über dem, was ${fibres[w.fibre]} gewöhnlich verträgt, ${n.temp(w.limitC)}`,
    'window-over-fibre': (w, n) =>
      `das Fenster reicht bis ${n.temp(w.topC)}; ${fibres[w.fibre]} verträgt gewöhnlich ${n.temp(w.limitC)}`,
    'window-over-boil': (w, n) =>
      `das Fenster beginnt bei ${n.temp(w.bottomC)}, aber Wasser kocht hier bei ${n.temp(w.boilC)}: es ist nicht zu erreichen`,
    'top-over-boil': (w, n) =>
      `das Fenster reicht bis ${n.temp(w.topC)}, aber Wasser kocht hier bei ${n.temp(w.boilC)}`,
    'ceiling-over-boil': (w, n) =>
      `über die Obergrenze von ${n.temp(w.ceilingC)} kommt das Bad nie, Wasser kocht hier bei ${n.temp(w.boilC)}; mit einer tieferen wirst du rechtzeitig gerufen`,
    'no-ceiling': () => 'eine Obergrenze fehlt, also ruft niemand, wenn das Bad viel zu heiß wird',
    'ceiling-close': (w, n) =>
      `die Obergrenze liegt nur ${n.difference(w.roomC)} über dem Fenster, weniger, als ein Fühler falsch gehen kann`,
    'narrow-window': (w, n) =>
      `das Fenster ist nur ${n.difference(w.widthC)} breit, weniger, als ein Fühler sicher unterscheidet`,
    'fast-heating': (w, n) =>
      `${n.difference(w.rateCPerMin)} je Minute aufzuheizen ist schnell für ${fibres[w.fibre]}; üblich sind bis ${n.difference(w.usualCPerMin)} je Minute`,
    'fast-cooling': (w, n) =>
      `${n.difference(w.rateCPerMin)} je Minute abzukühlen ist schnell für ${fibres[w.fibre]}, sie kann verfilzen; üblich sind bis ${n.difference(w.usualCPerMin)} je Minute`,
    'short-hold': (w, n) =>
      `eine Haltezeit von ${n.number(w.holdMin)} min ist kurz; üblich sind ${w.usualMin} min oder mehr`,
    'long-hold': (w, n) =>
      `eine Haltezeit von ${n.number(w.holdMin)} min ist lang; üblich sind bis ${w.usualMin} min`,
    'out-before-done': (w, n) =>
      `das Färbegut muss nach ${n.number(w.outByMin)} min heraus, bevor die Haltezeit von ${n.number(w.holdMin)} min um ist`,
    'rare-turning': (w, n) =>
      `alle ${n.number(w.turnEveryMin)} min zu wenden ist selten; alle ${w.usualMin} min oder öfter bleibt die Farbe gleichmäßig`,
    'ph-unkind': (w, n) =>
      `pH ${n.number(w.ph)} setzt ${fibres[w.fibre]} im heißen Bad oder der Beize darauf zu; üblich ist ${w.usual[0]} bis ${w.usual[1]}`,
    'odd-amount': (w, n) =>
      `${n.number(w.percentWof)} % vom Trockengewicht sind viel für ${w.additive}; üblich sind bis ${w.usual} %`,
    'odd-ratio': (w, n) =>
      `ein Flottenverhältnis von ${n.number(w.liquorRatio)}:1 ist ungewöhnlich; üblich ist ${w.usual[0]}:1 bis ${w.usual[1]}:1`,
    'lifted-hot': () =>
      'es folgt keine Abkühlung; Wolle, die heiß herauskommt und kalt gespült wird, kann verfilzen',
    'cools-long': (w, n) =>
      `${n.temp(w.coolToC)} ist etwa so kühl wie der Raum (${n.temp(w.airC)}), das Ende kommt vielleicht nie`,
  },
}
