/** The colours of the page's style sheet, for the canvas that no style sheet reaches. */
export interface ChartColours {
  readonly line: string
  /** What a line may be off by. */
  readonly band: string
  readonly window: string
  readonly windowEdge: string
  readonly ceiling: string
  readonly goal: string
  readonly grid: string
  readonly text: string
  readonly event: string
}

export function chartColours(element: Element): ChartColours {
  const style = getComputedStyle(element)
  const value = (name: string) => style.getPropertyValue(name).trim()
  return {
    line: value('--trace-line'),
    band: value('--trace-band'),
    window: value('--trace-window'),
    windowEdge: value('--trace-window-edge'),
    ceiling: value('--trace-ceiling'),
    goal: value('--trace-goal'),
    grid: value('--line-soft'),
    text: value('--ink-soft'),
    event: value('--trace-event'),
  }
}
