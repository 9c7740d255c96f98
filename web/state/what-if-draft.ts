import type { Vessel } from '#core/bath/vessel'
import type { Plan, Stage } from '#core/plan/plan'

/** The sliders of the what-if page. Temperatures °C. */
export interface WhatIfDraft {
  readonly litres: number
  readonly lid: 'on' | 'off'
  readonly dial: number
  readonly surroundingsC: number
  readonly startC: number
  readonly hours: number
}

export interface SliderRange {
  readonly min: number
  readonly max: number
  readonly step: number
}

/** How far each slider goes for a pot; `litres` from a fifth of its usual fill to twice as much. */
export function whatIfRanges({
  litres,
  burner,
}: Vessel): Readonly<Record<Exclude<keyof WhatIfDraft, 'lid'>, SliderRange>> {
  const step = litres >= 10 ? 0.5 : 0.1
  const whole = (value: number) => Math.max(step, Number((Math.round(value / step) * step).toFixed(1)))
  return {
    litres: { min: whole(litres / 5), max: whole(litres * 2), step },
    dial: { min: 0, max: burner.dialMax, step: burner.dialMax > 20 ? burner.dialMax / 100 : 0.1 },
    surroundingsC: { min: 5, max: 35, step: 0.5 },
    startC: { min: 5, max: 95, step: 0.5 },
    hours: { min: 1, max: 12, step: 0.5 },
  }
}

/** Where the sliders stand at first: the pot as it is, or cold at two thirds of its dial. */
export function firstDraft(
  vessel: Vessel,
  roomC: number,
  live: {
    readonly tempC: number | null
    readonly dial: number | null
    readonly lid: 'on' | 'off' | null
  } | null,
): WhatIfDraft {
  const { dialMax } = vessel.burner
  return {
    litres: vessel.litres,
    lid: live?.lid ?? 'on',
    dial: live?.dial ?? Number(((2 * dialMax) / 3).toFixed(0)),
    surroundingsC: Math.round(roomC * 2) / 2,
    startC: Math.round((live?.tempC ?? roomC) * 2) / 2,
    hours: 4,
  }
}

/** A stage that a curve can be held against. */
export interface StageChoice {
  readonly key: string
  readonly planTitle: string
  readonly stageTitle: string
  readonly goal: WhatIfGoal
}

export interface WhatIfGoal {
  readonly windowC?: readonly [low: number, high: number]
  readonly ceilingC?: number
  readonly coolToC?: number
}

/** Every stage of the plans that has a window or is to cool. */
export const stageChoices = (
  plans: readonly { readonly id: number; readonly plan: Plan }[],
): readonly StageChoice[] =>
  plans.flatMap(({ id, plan }) =>
    plan.stages.flatMap((stage) => {
      const goal = goalOf(stage)
      return goal === null
        ? []
        : [{ key: `${id}/${stage.id}`, planTitle: plan.title, stageTitle: stage.title, goal }]
    }),
  )

export function goalOf(stage: Stage): WhatIfGoal | null {
  switch (stage.kind) {
    case 'hold':
    case 'keep-warm':
      return {
        windowC: stage.windowC,
        ...(stage.ceilingC === undefined ? {} : { ceilingC: stage.ceilingC }),
      }
    case 'cool':
      return { coolToC: stage.coolToC }
    case 'soak':
    case 'rest':
      return null
    default:
      return stage satisfies never
  }
}
