import { expect, test } from 'vitest'
import { LoneAlarm } from '../../../bridge/link/lone-alarm.ts'
import { HandClock } from '../../kit/hand-clock.ts'

function bridge(lamp: { url: string } | null = { url: 'mqtt://127.0.0.1:1883' }) {
  const clock = new HandClock()
  const log: string[] = []
  const alarm = new LoneAlarm({
    clock,
    say: (sentence) => log.push(sentence),
    bell: () => log.push('bell'),
    openLamp: ({ url }) => {
      log.push(`lamp opened at ${url}`)
      return { show: (pot, level) => log.push(`lamp ${pot} ${level}`), end: () => log.push('lamp ended') }
    },
  })
  const limits = [{ probe: 'p1', pot: 'heron', title: 'Heron', rawC: 71 }]
  alarm.settings({ probes: [], find: false, broker: null, limits, lamp, nowMs: clock.nowMs() })
  const read = (rawC: number, seconds: number) => {
    for (let i = 0; i < seconds; i++) {
      alarm.sample({ kind: 'temp', probe: 'p1', atMs: clock.nowMs(), rawC })
      clock.advance(1000)
    }
  }
  return { clock, log, alarm, read }
}

test('a dead server and a bath over its ceiling: a line, a bell and the lamp, until the server is back', () => {
  const { clock, log, alarm, read } = bridge()
  read(71.6, 61)
  alarm.heard()
  expect(log).toEqual([
    'bell',
    'the server has not answered for 60 s and nobody watches Heron: look at the pots',
    'bell',
    'Heron: the probe reads 71.6 °C, over the ceiling (71.0 on this probe), and the server is silent. Turn the burner down or off.',
    'lamp opened at mqtt://127.0.0.1:1883',
    'lamp heron 4',
    'the server watches again',
    'lamp ended',
  ])
  alarm.close()
  expect(clock.pending).toBe(0)
})

test('the bath comes down while the server is still silent: the lamp says that it went unseen', () => {
  const { log, alarm, read } = bridge()
  read(71.6, 61)
  read(70, 5)
  expect(log.slice(-2)).toEqual([
    'no probe reads over a ceiling any more; the server is still silent',
    'lamp heron 1',
  ])
  alarm.close()
})

test('without a lamp there is still the line and the bell', () => {
  const { log, alarm, read } = bridge(null)
  read(71.6, 61)
  expect(log.filter((l) => l === 'bell')).toHaveLength(2)
  expect(log.join()).not.toContain('lamp')
  alarm.close()
})

test('a probe that reports a fault is no bath', () => {
  const { clock, log, alarm } = bridge()
  for (let i = 0; i < 61; i++) {
    alarm.sample({ kind: 'fault', probe: 'p1', atMs: clock.nowMs(), fault: 'error-code', found: '-127' })
    clock.advance(1000)
  }
  expect(log).toHaveLength(2)
  alarm.close()
})
