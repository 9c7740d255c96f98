import type { AnnotationOptions } from 'chartjs-plugin-annotation'
import type { ChartColours } from '../chart/chart-colours.ts'
import type { TracePicture } from './trace-picture.ts'

/** Labels nearer to one another than this share of the picture would lie on each other. */
const LABEL_SHARE = 1 / 50

/** A dotted line for each event; a label where there is room for it. */
export function eventMarks(
  { events = [], fromMs, toMs }: TracePicture,
  colours: ChartColours,
): Record<string, AnnotationOptions> {
  const found: Record<string, AnnotationOptions> = {}
  let labelledMs = -Infinity
  for (const [i, { atMs, text }] of events.entries()) {
    const hasRoom = atMs - labelledMs > (toMs - fromMs) * LABEL_SHARE
    if (hasRoom) labelledMs = atMs
    found[`event${i}`] = eventMark(atMs, text, hasRoom, colours)
  }
  return found
}

const eventMark = (
  atMs: number,
  text: string,
  hasRoom: boolean,
  colours: ChartColours,
): AnnotationOptions => ({
  type: 'line',
  xMin: atMs,
  xMax: atMs,
  borderColor: colours.event,
  borderWidth: 1,
  borderDash: [2, 3],
  label: {
    display: hasRoom,
    content: text,
    position: 'start',
    rotation: -90,
    color: colours.text,
    backgroundColor: 'transparent',
    font: { size: 11, weight: 'normal' },
    xAdjust: -8,
    padding: 2,
  },
})
