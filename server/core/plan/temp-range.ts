/** A plan's temperatures lie in here, °C, both bounds allowed: from brine on ice to just over boiling at the sea. */
export const PLAN_RANGE_C = { low: -5, high: 105 } as const
