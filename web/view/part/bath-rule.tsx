/**
 * A dipstick laid flat: the window as a band, the ceiling as a stop, the bath as a pointer. Shows at a glance
 * how much room is left. All °C; the scale reaches a little over what there is to show.
 */
export function BathRule(props: {
  readonly tempC: number | null
  readonly windowC: readonly [number, number] | null
  readonly ceilingC: number | null
  readonly coolToC?: number | null
}) {
  const marks = [...(props.windowC ?? []), props.ceilingC, props.coolToC ?? null].filter((t) => t !== null)
  if (marks.length === 0) return null
  const lowC = Math.min(...marks) - ROOM_C
  const highC = props.coolToC == null ? Math.max(...marks) + ROOM_C / 2 : props.coolToC + COOLING_C
  const x = (tempC: number) => (WIDTH * (Math.min(highC, Math.max(lowC, tempC)) - lowC)) / (highC - lowC)
  return (
    <svg class="bath-rule" viewBox={`-8 0 ${WIDTH + 16} 36`} aria-hidden="true" focusable="false">
      <rect class="rule-water" x={0} y={12} width={WIDTH} height={16} rx={8} />
      {props.windowC !== null && (
        <rect
          class="rule-window"
          x={x(props.windowC[0])}
          y={10}
          width={x(props.windowC[1]) - x(props.windowC[0])}
          height={20}
          rx={2}
        />
      )}
      {props.ceilingC !== null && <path class="rule-ceiling" d={`M${x(props.ceilingC)} 5v30`} />}
      {props.coolToC !== undefined && props.coolToC !== null && (
        <path class="rule-goal" d={`M${x(props.coolToC)} 8v24`} />
      )}
      {props.tempC !== null && (
        <path class="rule-pointer" d={`M${x(props.tempC)} 20m-8 -18h16l-8 13z M${x(props.tempC)} 14v18`} />
      )}
    </svg>
  )
}

const WIDTH = 400
/** Shown below the lowest mark, °C. */
const ROOM_C = 12
/** How far above its goal a cool-down is shown, °C. */
const COOLING_C = 55
