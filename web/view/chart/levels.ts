import type { AnnotationOptions } from 'chartjs-plugin-annotation'
import type { ChartColours } from './chart-colours.ts'

/** The temperatures of a stage that are drawn across a chart, °C; `null` where the stage has none. */
export interface Levels {
  readonly windowC: readonly [low: number, high: number] | null
  readonly ceilingC: number | null
  /** Where a cool-down is to end. */
  readonly goalC: number | null
}

export const levelTempsC = ({ windowC, ceilingC, goalC }: Levels): readonly number[] =>
  [...(windowC ?? []), ceilingC, goalC].filter((t) => t !== null)

/** The window as a band, ceiling and goal as dashed lines. `shown`: °C to the person's unit. */
export function levelMarks(
  { windowC, ceilingC, goalC }: Levels,
  colours: ChartColours,
  shown: (tempC: number) => number,
): Record<string, AnnotationOptions> {
  const found: Record<string, AnnotationOptions> = {}
  if (windowC !== null)
    found['window'] = {
      type: 'box',
      yMin: shown(windowC[0]),
      yMax: shown(windowC[1]),
      backgroundColor: colours.window,
      borderColor: colours.windowEdge,
      borderWidth: 1,
      drawTime: 'beforeDatasetsDraw',
    }
  if (ceilingC !== null) found['ceiling'] = across(shown(ceilingC), colours.ceiling, [8, 4])
  if (goalC !== null) found['goal'] = across(shown(goalC), colours.goal, [3, 4])
  return found
}

const across = (y: number, color: string, dash: number[]): AnnotationOptions => ({
  type: 'line',
  yMin: y,
  yMax: y,
  borderColor: color,
  borderWidth: 2,
  borderDash: dash,
})
