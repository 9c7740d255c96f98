import type { FibreKind } from './fibre.ts'
import type { Additive, Plan, Stage } from './plan.ts'
import { SILK_AND_CELLULOSE_DYES } from './starting/silk-and-cellulose-dyes.ts'
import type { StartingDye } from './starting/starting-dye.ts'
import { WOOL_DYES } from './starting/wool-dyes.ts'
import { ACETATE, COMMON_PRACTICE, FINISHING, PREPARATION } from './starting/preparation.ts'

/** A whole plan to copy and change. Nothing in it is a rule; every stage's note says so. */
export interface StartingPoint {
  readonly id: string
  readonly title: string
  readonly fibre: FibreKind
  readonly plan: Plan
}

const FIBRE_TITLES: Readonly<Record<FibreKind, string>> = {
  wool: 'wool',
  silk: 'silk',
  cellulose: 'cotton or linen',
}

/** Enter the goods lukewarm and come up in about three quarters of an hour (common practice). */
const HEATING_C_PER_MIN: Readonly<Record<FibreKind, number>> = { wool: 1.5, silk: 1.2, cellulose: 2 }

function dyeStages(dye: StartingDye): readonly Stage[] {
  const bath: Stage = {
    id: 'dye',
    title: `${dye.title} bath`,
    kind: 'hold',
    windowC: dye.windowC,
    ceilingC: dye.ceilingC,
    holdMin: dye.holdMin,
    maxHeatingCPerMin: HEATING_C_PER_MIN[dye.fibre],
    turnEveryMin: 10,
    goods: true,
    liquorRatio: 30,
    additives: dye.additives,
    ...(dye.phRange === undefined ? {} : { phRange: dye.phRange }),
    note: `${COMMON_PRACTICE}. Put the goods in lukewarm and work them before the heat comes up. ${dye.why}`,
  }
  const isOvernight = dye.stay === 'overnight'
  const cool: Stage = {
    id: 'cool',
    title: isOvernight ? 'Cool in the bath' : 'Heat off, lift in time',
    kind: 'cool',
    coolToC: isOvernight ? 38 : 55,
    ...(dye.stay === 'overnight' ? {} : { outByMin: dye.stay }),
    additives: [],
    note: COMMON_PRACTICE,
  }
  return [bath, cool]
}

function pointOf(dye: StartingDye): StartingPoint {
  const title = `${dye.title} on ${FIBRE_TITLES[dye.fibre]}`
  const stages = [...PREPARATION[dye.fibre], ...dyeStages(dye), ...FINISHING[dye.fibre]]
  return { id: dye.id, title, fibre: dye.fibre, plan: { title, fibre: dye.fibre, stages } }
}

function preparationOf(fibre: FibreKind): StartingPoint {
  const title = `Scour and mordant ${FIBRE_TITLES[fibre]}`
  return { id: `prepare-${fibre}`, title, fibre, plan: { title, fibre, stages: PREPARATION[fibre] } }
}

const indigo = (name: string, gPerL: number): Additive => ({ name, gPerL })

const ACETATE_TITLE = 'Scour and mordant cotton or linen with acetate'

/** A second mordant, and two that are no holds: a vat kept warm for hours, and a pink that heat destroys. */
const APART: readonly StartingPoint[] = [
  {
    id: 'prepare-cellulose-acetate',
    title: ACETATE_TITLE,
    fibre: 'cellulose',
    plan: { title: ACETATE_TITLE, fibre: 'cellulose', stages: ACETATE },
  },
  {
    id: 'indigo-cellulose',
    title: 'Indigo, sugar and lime vat, on cotton or linen',
    fibre: 'cellulose',
    plan: {
      title: 'Indigo, sugar and lime vat, on cotton or linen',
      fibre: 'cellulose',
      stages: [
        {
          id: 'vat',
          title: 'Keep the vat warm and dip',
          kind: 'keep-warm',
          windowC: [35, 50],
          ceilingC: 60,
          phRange: [10, 11],
          additives: [indigo('indigo', 4), indigo('fructose', 12), indigo('slaked lime', 8)],
          note: `${COMMON_PRACTICE}. Dips of 2 to 10 min, air between; heat uses up the sugar.`,
        },
        ...FINISHING.cellulose,
      ],
    },
  },
  {
    id: 'safflower-pink-silk',
    title: 'Safflower pink on silk, cold',
    fibre: 'silk',
    plan: {
      title: 'Safflower pink on silk, cold',
      fibre: 'silk',
      stages: [
        {
          id: 'dye',
          title: 'Steep cold',
          kind: 'soak',
          minutes: 240,
          ceilingC: 40,
          phRange: [5, 6.5],
          additives: [{ name: 'safflower petals', percentWof: 150 }],
          note: `${COMMON_PRACTICE}. Heat destroys the pink.`,
        },
        ...FINISHING.silk,
      ],
    },
  },
]

export const STARTING_POINTS: readonly StartingPoint[] = [
  ...(['wool', 'silk', 'cellulose'] as const).map(preparationOf),
  ...[...WOOL_DYES, ...SILK_AND_CELLULOSE_DYES].map(pointOf),
  ...APART,
]
