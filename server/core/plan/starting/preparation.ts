import type { FibreKind } from '../fibre.ts'
import type { Stage } from '../plan.ts'

/** What every starting value says of itself, so that nobody takes it for a rule. */
export const COMMON_PRACTICE = 'common practice; put your own value here'

const rest = (id: string, title: string, minutes: number): Stage => ({
  id,
  title,
  kind: 'rest',
  minutes,
  additives: [],
  note: COMMON_PRACTICE,
})

const cool = (id: string, title: string, coolToC: number): Stage => ({
  id,
  title,
  kind: 'cool',
  coolToC,
  additives: [],
  note: COMMON_PRACTICE,
})

const wash = (minutes: number): Stage => ({
  id: 'wash',
  title: 'Wash in neutral soap',
  kind: 'soak',
  minutes,
  ceilingC: 40,
  additives: [{ name: 'neutral soap', gPerL: 1 }],
  note: COMMON_PRACTICE,
})

const WOOL: readonly Stage[] = [
  {
    id: 'scour',
    title: 'Scour',
    kind: 'hold',
    windowC: [55, 62],
    ceilingC: 66,
    holdMin: 60,
    maxHeatingCPerMin: 1.5,
    goods: true,
    liquorRatio: 30,
    additives: [{ name: 'neutral soap', gPerL: 1 }],
    note: `${COMMON_PRACTICE}. Turn, don’t agitate.`,
  },
  cool('scour-cool', 'Cool after the scour', 38),
  rest('scour-rinse', 'Rinse', 10),
  {
    id: 'mordant',
    title: 'Alum mordant',
    kind: 'hold',
    windowC: [77, 83],
    ceilingC: 87,
    holdMin: 60,
    maxHeatingCPerMin: 1.5,
    turnEveryMin: 10,
    goods: true,
    liquorRatio: 30,
    additives: [
      { name: 'potassium alum', percentWof: 12 },
      { name: 'cream of tartar', percentWof: 6 },
    ],
    note: COMMON_PRACTICE,
  },
  cool('mordant-cool', 'Cool in the mordant overnight', 35),
  rest('mordant-rinse', 'Rinse', 10),
]

const SILK: readonly Stage[] = [
  {
    id: 'scour',
    title: 'Scour (already boiled-off silk)',
    kind: 'hold',
    windowC: [55, 62],
    ceilingC: 70,
    holdMin: 60,
    maxHeatingCPerMin: 1.5,
    goods: true,
    liquorRatio: 30,
    additives: [{ name: 'neutral soap', gPerL: 1 }],
    note: COMMON_PRACTICE,
  },
  rest('scour-rinse', 'Rinse', 10),
  {
    id: 'mordant',
    title: 'Alum mordant, cold',
    kind: 'soak',
    minutes: 1440,
    ceilingC: 40,
    liquorRatio: 30,
    additives: [{ name: 'potassium alum', percentWof: 15 }],
    note: COMMON_PRACTICE,
  },
  rest('mordant-rinse', 'Rinse', 10),
]

const warmBath = (id: string, title: string, holdMin: number): Extract<Stage, { kind: 'hold' }> => ({
  id,
  title,
  kind: 'hold',
  windowC: [49, 59],
  ceilingC: 65,
  holdMin,
  goods: true,
  turnEveryMin: 15,
  liquorRatio: 30,
  additives: [],
  note: COMMON_PRACTICE,
})

/** Scour, and a soak so that the next bath strikes through; goods that are still wet may go on without it. */
const CELLULOSE_SCOUR: readonly Stage[] = [
  {
    ...warmBath('scour', 'Scour', 60),
    windowC: [85, 91],
    ceilingC: 93,
    additives: [
      { name: 'soda ash', percentWof: 2 },
      { name: 'neutral soap', gPerL: 1 },
    ],
    note: `${COMMON_PRACTICE}. Recipes differ tenfold in the soda.`,
  },
  rest('scour-rinse', 'Rinse', 15),
  {
    id: 'pre-soak',
    title: 'Pre-soak',
    kind: 'soak',
    minutes: 120,
    ceilingC: 40,
    additives: [],
    note: `${COMMON_PRACTICE}. Goods that are still wet from the scour can do without it.`,
  },
]

const CHALK_BATH: Stage = {
  ...warmBath('after-bath', 'Chalk after-bath', 20),
  windowC: [43, 49],
  ceilingC: 55,
  additives: [{ name: 'chalk', gPerL: 5 }],
}

const CELLULOSE: readonly Stage[] = [
  ...CELLULOSE_SCOUR,
  {
    ...warmBath('tannin', 'Tannin', 60),
    additives: [{ name: 'gallnut tannin', percentWof: 8 }],
    note: `${COMMON_PRACTICE}. Don’t let the goods dry before the alum.`,
  },
  {
    ...warmBath('mordant', 'Alum with soda', 60),
    additives: [
      { name: 'aluminium sulfate', percentWof: 15 },
      { name: 'soda ash', percentWof: 2 },
    ],
    note: `${COMMON_PRACTICE}. Add the soda slowly: it foams.`,
  },
  CHALK_BATH,
  rest('mordant-rinse', 'Rinse once, lukewarm', 10),
]

/** The other usual way to an alum mordant on cotton or linen: acetate, dried and cured, no tannin. */
export const ACETATE: readonly Stage[] = [
  ...CELLULOSE_SCOUR,
  {
    ...warmBath('mordant', 'Aluminium acetate', 60),
    windowC: [42, 53],
    ceilingC: 58,
    additives: [{ name: 'aluminium acetate', percentWof: 6 }],
    note: `${COMMON_PRACTICE}. Many leave the goods in it overnight.`,
  },
  rest('cure', 'Dry and cure', 2880),
  CHALK_BATH,
  rest('mordant-rinse', 'Rinse once, lukewarm', 10),
]

/** The stages before the dye bath, by kind of goods. */
export const PREPARATION: Readonly<Record<FibreKind, readonly Stage[]>> = {
  wool: WOOL,
  silk: SILK,
  cellulose: CELLULOSE,
}

/** The stages after the goods have come out of the dye bath. */
export const FINISHING: Readonly<Record<FibreKind, readonly Stage[]>> = {
  wool: [
    rest('rinse', 'Rinse at the temperature of the goods', 10),
    wash(15),
    rest('dry', 'Dry in shade', 1440),
  ],
  silk: [rest('rinse', 'Rinse', 10), wash(10), rest('dry', 'Dry in shade', 720)],
  cellulose: [
    rest('air', 'Hang, dry and cure', 4320),
    wash(20),
    rest('rinse', 'Rinse', 10),
    rest('dry', 'Dry in shade', 1440),
  ],
}
