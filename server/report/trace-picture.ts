import type { Trace } from '#core/batch/trace-facts'
import { GAP_MS } from '#core/measure/reading'
import { thinPoints } from '#core/measure/thin-points'
import { celsius, fahrenheit } from '#core/measure/units'
import type { Stage } from '#core/plan/plan'
import { type Markup, html, join } from './html.ts'
import { evenTicks } from './ticks.ts'

/** A mark on the picture: what a person noted, or an alarm. */
export interface TraceMark {
  readonly atMs: number
  readonly label: string
}

export interface TracePictureOptions {
  /** Unique on its page; letters, digits, `-`. */
  readonly id: string
  readonly unit: 'C' | 'F'
  readonly timeLabel: (atMs: number) => string
  readonly marks: readonly TraceMark[]
  /** What it says to whoever can't see it. */
  readonly description: string
}

const WIDTH = 680
const HEIGHT = 260
const PLOT = { left: 44, right: 672, top: 16, bottom: 226 } as const

/**
 * The trace of one stage as an inline picture for print: readings as a line, gaps dashed, the window as a hatched
 * band and the ceiling as a dash-dot line, so that black and white loses nothing. Empty without two readings.
 */
export function tracePicture(trace: Trace, stage: Stage, options: TracePictureOptions): Markup {
  if (trace.length < 2) return html``
  const scale = scaleOf(trace, stage)
  return html`<figure class="trace">
    <svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="${options.description}">
      <defs>
        <pattern
          id="${options.id}"
          width="6"
          height="6"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line x1="0" y1="0" x2="0" y2="6" stroke="#999" stroke-width="1" />
        </pattern>
      </defs>
      ${band(stage, scale, options.id)} ${ceiling(stage, scale)} ${axes(scale, options)}
      ${lines(trace, scale)} ${marks(options.marks, scale)}
    </svg>
  </figure>`
}

interface Scale {
  readonly fromMs: number
  readonly toMs: number
  readonly lowC: number
  readonly highC: number
  x(atMs: number): string
  y(tempC: number): string
}

const along = (value: number, low: number, high: number, from: number, to: number): string =>
  (from + ((value - low) / (high - low)) * (to - from)).toFixed(1)

function scaleOf(trace: Trace, stage: Stage): Scale {
  const temps = [...trace.map(([, tempC]) => tempC), ...limitsOf(stage)]
  const lowC = Math.floor(temps.reduce((a, b) => Math.min(a, b)) - 1)
  const highC = Math.ceil(temps.reduce((a, b) => Math.max(a, b)) + 1)
  const fromMs = trace[0]![0]
  const toMs = Math.max(trace.at(-1)![0], fromMs + 1)
  return {
    fromMs,
    toMs,
    lowC,
    highC,
    x: (atMs) => along(atMs, fromMs, toMs, PLOT.left, PLOT.right),
    y: (tempC) => along(tempC, lowC, highC, PLOT.bottom, PLOT.top),
  }
}

function limitsOf(stage: Stage): readonly number[] {
  const window = 'windowC' in stage ? stage.windowC : []
  const ceilingC = 'ceilingC' in stage && stage.ceilingC !== undefined ? [stage.ceilingC] : []
  return [...window, ...ceilingC, ...(stage.kind === 'cool' ? [stage.coolToC] : [])]
}

function band(stage: Stage, scale: Scale, hatchId: string): Markup {
  if (!('windowC' in stage)) return html``
  const top = scale.y(stage.windowC[1])
  const height = (Number(scale.y(stage.windowC[0])) - Number(top)).toFixed(1)
  const width = PLOT.right - PLOT.left
  return html`<rect
    x="${PLOT.left}"
    y="${top}"
    width="${width}"
    height="${height}"
    fill="url(#${hatchId})"
    stroke="#777"
    stroke-width="0.5"
  />`
}

function ceiling(stage: Stage, scale: Scale): Markup {
  const lineC = stage.kind === 'cool' ? stage.coolToC : 'ceilingC' in stage ? stage.ceilingC : undefined
  if (lineC === undefined) return html``
  const y = scale.y(lineC)
  return html`<line
    x1="${PLOT.left}"
    y1="${y}"
    x2="${PLOT.right}"
    y2="${y}"
    stroke="#000"
    stroke-dasharray="8 3 2 3"
  />`
}

const TIME_STEPS_MIN = [1, 2, 5, 10, 15, 30, 60, 120, 240, 720, 1440, 2880]

function axes(scale: Scale, options: TracePictureOptions): Markup {
  const temps = evenTicks(shown(scale.lowC, options), shown(scale.highC, options), 6)
  const times = evenTicks(scale.fromMs / 60_000, scale.toMs / 60_000, 8, TIME_STEPS_MIN)
  return html`<g font-size="10" font-family="sans-serif" fill="#000">
    ${temps.map((value) => {
      const y = scale.y(options.unit === 'F' ? celsius(value) : value)
      return html`<line x1="${PLOT.left - 4}" y1="${y}" x2="${PLOT.left}" y2="${y}" stroke="#000" />
        <text x="${PLOT.left - 7}" y="${y}" dy="3" text-anchor="end">${value}</text>`
    })}
    ${times.map((min) => {
      const x = scale.x(min * 60_000)
      return html`<line x1="${x}" y1="${PLOT.bottom}" x2="${x}" y2="${PLOT.bottom + 4}" stroke="#000" />
        <text x="${x}" y="${PLOT.bottom + 15}" text-anchor="middle">${options.timeLabel(min * 60_000)}</text>`
    })}
    <text x="4" y="11">°${options.unit}</text>
    <path d="M${PLOT.left} ${PLOT.top}V${PLOT.bottom}H${PLOT.right}" fill="none" stroke="#000" />
  </g>`
}

const shown = (tempC: number, { unit }: TracePictureOptions): number =>
  unit === 'F' ? fahrenheit(tempC) : tempC

function lines(trace: Trace, scale: Scale): Markup {
  const runs: (readonly [number, number])[][] = [[]]
  trace.forEach((point, i) => {
    if (i > 0 && point[0] - trace[i - 1]![0] > GAP_MS) runs.push([])
    runs.at(-1)!.push(point)
  })
  const gaps = runs.slice(1).map((run, i) => [runs[i]!.at(-1)!, run[0]!])
  const path = (points: readonly (readonly [number, number])[]) =>
    thinPoints(points, 2 * (PLOT.right - PLOT.left))
      .map(([atMs, tempC], i) => `${i === 0 ? 'M' : 'L'}${scale.x(atMs)} ${scale.y(tempC)}`)
      .join('')
  return join([
    ...gaps.map(
      (gap) => html`<path class="gap" d="${path(gap)}" fill="none" stroke="#000" stroke-dasharray="3 4" />`,
    ),
    ...runs.map(
      (run) =>
        html`<path d="${path(run)}" fill="none" stroke="#000" stroke-width="1.6" stroke-linejoin="round" />`,
    ),
  ])
}

/** A thin line with a number; the numbers are told in the list below the picture. */
function marks(found: readonly TraceMark[], scale: Scale): Markup {
  const inside = found
    .map((mark, i) => ({ ...mark, number: i + 1 }))
    .filter((mark) => mark.atMs >= scale.fromMs && mark.atMs <= scale.toMs)
  return html`<g font-size="9" font-family="sans-serif" fill="#000">
    ${inside.map(({ atMs, number, label }) => {
      const x = scale.x(atMs)
      return html`<g>
        <title>${label}</title>
        <line
          x1="${x}"
          y1="${PLOT.top}"
          x2="${x}"
          y2="${PLOT.bottom}"
          stroke="#000"
          stroke-width="0.5"
          stroke-dasharray="1 3"
        />
        <text x="${x}" y="${PLOT.top - 4}" text-anchor="middle">${number}</text>
      </g>`
    })}
  </g>`
}
