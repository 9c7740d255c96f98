const MIN_MS = 60_000
const DAY_MIN = 24 * 60

/**
 * When a clock in a zone next shows an hour, after `atMs`. `clock`: `06:30`. In the night in which the clocks change an
 * hour that does not exist is taken an hour off, and of one that comes twice the first is taken.
 */
export function nextClockMs(atMs: number, clock: string, zone: string): number {
  const [hours, minutes] = clock.split(':').map(Number)
  const wantedMin = hours! * 60 + minutes!
  const fromMs = Math.floor(atMs / MIN_MS) * MIN_MS
  const aheadMin = (min: number) => (((min % DAY_MIN) + DAY_MIN - 1) % DAY_MIN) + 1
  const foundMs = fromMs + aheadMin(wantedMin - shownMin(fromMs, zone)) * MIN_MS
  const offMin = wantedMin - shownMin(foundMs, zone)
  // Half a day and more is the way round the dial.
  const nearMin = offMin > DAY_MIN / 2 ? offMin - DAY_MIN : offMin < -DAY_MIN / 2 ? offMin + DAY_MIN : offMin
  return foundMs + nearMin * MIN_MS
}

/** Minutes since midnight that a clock in the zone shows. */
function shownMin(atMs: number, zone: string): number {
  const text = new Intl.DateTimeFormat('en-GB', {
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
    timeZone: zone,
  }).format(atMs)
  const [hours, minutes] = text.split(':').map(Number)
  return hours! * 60 + minutes!
}
