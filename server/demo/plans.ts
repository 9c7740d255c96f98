import type { Plan } from '#core/plan/plan'

const none = [] as const

/** A clear red on wool: mordant, rinse, a low narrow dye bath, cool overnight. */
export const RED_ON_WOOL: Plan = {
  title: 'Brick rose on wool',
  fibre: 'wool',
  stages: [
    {
      id: 'mordant',
      title: 'Alum mordant',
      kind: 'hold',
      windowC: [78, 84],
      ceilingC: 88,
      holdMin: 45,
      maxHeatingCPerMin: 1.5,
      turnEveryMin: 10,
      goods: true,
      additives: [
        { name: 'potassium alum', percentWof: 12 },
        { name: 'cream of tartar', percentWof: 5 },
      ],
    },
    { id: 'rinse', title: 'Rinse', kind: 'rest', minutes: 15, additives: none },
    {
      id: 'dye',
      title: 'Madder bath',
      kind: 'hold',
      windowC: [65, 70],
      ceilingC: 74,
      holdMin: 60,
      maxHeatingCPerMin: 1.5,
      turnEveryMin: 10,
      goods: true,
      additives: [
        { name: 'madder root, ground', percentWof: 50 },
        { name: 'chalk', percentWof: 1.5 },
      ],
    },
    { id: 'cool', title: 'Cool in the bath', kind: 'cool', coolToC: 35, additives: none },
  ],
}

/** Done days before the dye bath, for several lots at once. */
export const ALUM_ON_WOOL: Plan = {
  ...RED_ON_WOOL,
  title: 'Alum mordant on wool',
  stages: RED_ON_WOOL.stages.filter(({ id }) => id === 'mordant'),
}

const DYE_AND_COOL = RED_ON_WOOL.stages.filter(({ id }) => id === 'dye' || id === 'cool')

/** The same on wool that was mordanted days before. */
export const RED_ON_MORDANTED_WOOL: Plan = {
  ...RED_ON_WOOL,
  title: 'Brick rose on mordanted wool',
  stages: DYE_AND_COOL,
}

/** Yellow on silk: gentle, under the silk's ceiling, and out of the bath again. */
export const GOLD_ON_SILK: Plan = {
  title: 'Weld gold on silk',
  fibre: 'silk',
  stages: [
    {
      id: 'dye',
      title: 'Weld bath',
      kind: 'hold',
      windowC: [70, 76],
      ceilingC: 80,
      holdMin: 40,
      maxHeatingCPerMin: 1.5,
      turnEveryMin: 5,
      outByMin: 75,
      goods: true,
      additives: [
        { name: 'weld, dried', percentWof: 60 },
        { name: 'chalk', percentWof: 1 },
      ],
    },
    { id: 'rinse', title: 'Rinse lukewarm', kind: 'rest', minutes: 15, additives: none },
  ],
}

/** Brown on linen: hot and long, with a night in the bath. */
export const CUTCH_ON_LINEN: Plan = {
  title: 'Cutch brown on linen',
  fibre: 'linen',
  stages: [
    {
      id: 'dye',
      title: 'Cutch bath',
      kind: 'hold',
      windowC: [82, 90],
      ceilingC: 93,
      holdMin: 90,
      turnEveryMin: 10,
      goods: true,
      additives: [{ name: 'cutch extract', percentWof: 15 }],
    },
    { id: 'cool', title: 'Cool in the bath', kind: 'cool', coolToC: 35, additives: none },
  ],
}
