/** A mordant bath for lots that lie in it together: 12 g of alum for each 100 g of goods. */
export const ALUM_STAGE = {
  id: 'mordant',
  title: 'Alum mordant',
  kind: 'hold',
  windowC: [80, 86],
  ceilingC: 90,
  holdMin: 60,
  liquorRatio: 30,
  additives: [{ name: 'potassium alum', percentWof: 12 }],
} as const
