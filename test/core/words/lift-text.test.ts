import { expect, test } from 'vitest'
import type { LiftTime } from '#core/watch/lift-time'
import { liftText } from '#core/words/lift-text'

const at = (clock: string) => Date.parse(`2026-03-13T${clock}Z`)
const celsius = { unit: 'C', zone: 'UTC', language: 'en' } as const
const german = { ...celsius, language: 'de' } as const

const lift = (more: Partial<LiftTime> = {}): LiftTime => ({
  wakeMs: at('06:30'),
  liftC: 40,
  verdict: 'before',
  liftMs: at('05:10'),
  range90Ms: [at('04:30'), at('06:00')],
  lid: 'on',
  otherLidMs: null,
  ...more,
})
const NOT = { verdict: 'not-before', liftMs: at('08:10'), range90Ms: [at('07:20'), at('09:00')] } as const

test('the alarm clock is held against the hour of lifting, in both languages', () => {
  expect(liftText(lift(), celsius)).toEqual(['Under 40 °C at 05:10 (04:30–06:00): before your 06:30.'])
  expect(liftText(lift(), german)).toEqual(['Unter 40 °C um 05:10 (04:30–06:00): vor dem Wecker um 06:30.'])
  expect(liftText(lift(NOT), celsius)).toEqual(['Not under 40 °C before your 06:30: at 08:10 (07:20–09:00).'])
  expect(liftText(lift(NOT), german)).toEqual([
    'Nicht unter 40 °C vor dem Wecker um 06:30: um 08:10 (07:20–09:00).',
  ])
  expect(liftText(lift({ verdict: 'perhaps' }), celsius)[0]).toMatch(/: perhaps not before your 06:30\.$/)
  expect(liftText(lift({ verdict: 'perhaps' }), german)[0]).toMatch(/: vielleicht nicht vor dem Wecker/)
})

test('the other lid is told with what it means for the alarm clock', () => {
  const open = lift({ ...NOT, otherLidMs: at('04:50') })
  expect(liftText(open, celsius)[1]).toBe('With the lid off from now on: at about 04:50, before it rings.')
  expect(liftText(open, german)[1]).toBe('Ohne Deckel ab jetzt: gegen 04:50, bevor er läutet.')
  const lidded = lift({ lid: 'off', otherLidMs: at('07:30') })
  expect(liftText(lidded, celsius)[1]).toBe(
    'With the lid on from now on: at about 07:30, not before it rings.',
  )
  expect(liftText(lidded, german)[1]).toBe('Mit Deckel ab jetzt: gegen 07:30, nicht bevor er läutet.')
})

test('what can be lifted now is said so, and what does not come within a day has no hour', () => {
  const now = lift({ verdict: 'reached', range90Ms: null })
  expect(liftText(now, celsius)).toEqual(['Under 40 °C now: it can be lifted.'])
  expect(liftText(now, german)).toEqual(['Jetzt unter 40 °C: das Färbegut kann heraus.'])
  const never = lift({ verdict: 'not-before', liftMs: null, range90Ms: null })
  expect(liftText(never, celsius)).toEqual(['Not under 40 °C before your 06:30.'])
})

test('the lifting temperature is read in the person’s unit', () => {
  expect(liftText(lift(), { ...celsius, unit: 'F' })[0]).toMatch(/^Under 104 °F at /)
  expect(liftText(lift({ liftC: 37.7 }), { ...celsius, unit: 'F' })[0]).toMatch(/^Under 99\.9 °F at /)
})
