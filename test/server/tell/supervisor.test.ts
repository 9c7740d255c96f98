import { expect, test } from 'vitest'
import { HandClock } from '../../kit/hand-clock.ts'
import { Supervisor, type SupervisorEnvironment } from '../../../server/tell/supervisor.ts'

function supervised(environment: SupervisorEnvironment) {
  const clock = new HandClock()
  const sent: string[] = []
  const supervisor = new Supervisor(clock, environment, (words) => sent.push(...words))
  const goRound = (seconds: number) => {
    for (let i = 0; i < seconds; i++) {
      supervisor.beat()
      clock.advance(1000)
    }
  }
  return { clock, sent, supervisor, goRound }
}

// sd_notify(3): READY=1, WATCHDOG=1, STOPPING=1. sd_watchdog_enabled(3): WATCHDOG_USEC in microseconds; beat at half of it.
test('ready, a beat at half the time that is waited for, stopping', () => {
  const { sent, supervisor, goRound } = supervised({
    NOTIFY_SOCKET: '/run/notify',
    WATCHDOG_USEC: '20000000',
  })
  supervisor.ready()
  goRound(30)
  supervisor.stopping()
  expect(sent).toEqual(['READY=1', 'WATCHDOG=1', 'WATCHDOG=1', 'WATCHDOG=1', 'STOPPING=1'])
})

test('a watch that stands still gives no beat', () => {
  const { clock, sent } = supervised({ NOTIFY_SOCKET: '/run/notify', WATCHDOG_USEC: '20000000' })
  clock.advance(600_000)
  expect([sent, clock.pending]).toEqual([[], 0])
})

test.each([undefined, '', '0', 'soon'])('nobody waits for a beat: WATCHDOG_USEC=%s', (usec) => {
  const { sent, supervisor, goRound } = supervised({ NOTIFY_SOCKET: '/run/notify', WATCHDOG_USEC: usec })
  supervisor.ready()
  goRound(60)
  expect(sent).toEqual(['READY=1'])
})

test('without a supervisor nothing is sent', () => {
  const { sent, supervisor, goRound } = supervised({ WATCHDOG_USEC: '20000000' })
  supervisor.ready()
  goRound(60)
  supervisor.stopping()
  expect(sent).toEqual([])
})
