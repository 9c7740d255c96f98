import { type Stretch, isInAir } from '#core/batch/in-air'
import { fahrenheit } from '#core/measure/units'
import { type CompareFrame, compareFrame } from '../../state/compare-frame.ts'
import { useWords } from '../page-context.ts'

export interface ComparedBatch {
  readonly id: number
  readonly title: string
  readonly windowC: readonly [low: number, high: number] | null
  readonly points: readonly (readonly [afterMs: number, tempC: number])[]
  /** Between these the probe was in no bath; nothing is drawn. */
  readonly inAir: readonly Stretch[]
}

const WIDTH = 1000
const HEIGHT = 380
const LEFT = 58
const BOTTOM = 34
/** Over this long without a reading the line is left open, ms; a thinned night has a point every few minutes. */
const OPEN_MS = 15 * 60_000

/** Traces over one another; told apart by dashes as well as colour, so that it prints in black and white. */
export function ComparePicture(props: {
  readonly batches: readonly ComparedBatch[]
  readonly throughMin: number
}) {
  const { w, f } = useWords()
  const { throughMin } = props
  const batches = props.batches.map((batch) => ({
    ...batch,
    points: batch.points.filter(([ms]) => !isInAir(ms, batch.inAir)),
  }))
  const frame = compareFrame(batches, throughMin)
  if (frame === null) return <p class="row-more">{w.record.compare.noTrace}</p>
  const { x, y } = placesIn(frame)
  const windows = new Set(batches.map(({ windowC }) => windowC?.join(' '))).size
  const window = windows === 1 ? batches[0]?.windowC : null
  return (
    <svg
      class="compare-picture"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={w.record.compare.picture}
    >
      {window && (
        <rect
          class="compare-window"
          x={LEFT}
          y={y(window[1])}
          width={WIDTH - LEFT}
          height={y(window[0]) - y(window[1])}
        />
      )}
      {frame.ticksC.map((tempC) => (
        <g key={tempC}>
          <path class="compare-grid" d={`M${LEFT} ${y(tempC)}H${WIDTH}`} />
          <text class="compare-tick" x={LEFT - 8} y={y(tempC) + 5} text-anchor="end">
            {f.unit === '°F' ? Math.round(fahrenheit(tempC)) : tempC}°
          </text>
        </g>
      ))}
      {frame.ticksMin.map((min) => (
        <g key={min}>
          <path class={min === 0 ? 'compare-zero' : 'compare-grid'} d={`M${x(min)} 0V${HEIGHT - BOTTOM}`} />
          <text class="compare-tick" x={x(min)} y={HEIGHT - 10} text-anchor="middle">
            {hoursText(min)}
          </text>
        </g>
      ))}
      {batches.map((batch, i) => (
        <path key={batch.id} class={`compare-line compare-line-${i}`} d={pathOf(batch, throughMin, x, y)} />
      ))}
    </svg>
  )
}

/** The line of a batch as it stands in the key. */
export function LineSample({ no }: { readonly no: number }) {
  return (
    <svg class="line-sample" viewBox="0 0 48 12" aria-hidden="true" focusable="false">
      <path class={`compare-line compare-line-${no}`} d="M0 6H48" />
    </svg>
  )
}

const placesIn = (frame: CompareFrame) => ({
  x: (min: number) => LEFT + ((WIDTH - LEFT) * (min - frame.fromMin)) / (frame.toMin - frame.fromMin),
  y: (tempC: number) => ((HEIGHT - BOTTOM) * (frame.highC - tempC)) / Math.max(1, frame.highC - frame.lowC),
})

/** `-0:30`, `1:00`: hours and minutes from goods-in. */
function hoursText(min: number): string {
  const whole = Math.abs(Math.round(min))
  const minutes = String(whole % 60).padStart(2, '0')
  return `${min < 0 ? '−' : ''}${Math.floor(whole / 60)}:${minutes}`
}

function pathOf(
  { points, inAir }: ComparedBatch,
  throughMin: number,
  x: (min: number) => number,
  y: (tempC: number) => number,
): string {
  let lastMs = -Infinity
  const parts: string[] = []
  for (const [ms, tempC] of points) {
    if (ms / 60_000 > throughMin) break
    const isOpen = ms - lastMs > OPEN_MS || inAir.some(([fromMs]) => lastMs <= fromMs && ms > fromMs)
    parts.push(`${isOpen ? 'M' : 'L'}${x(ms / 60_000).toFixed(1)} ${y(tempC).toFixed(1)}`)
    lastMs = ms
  }
  return parts.join('')
}
