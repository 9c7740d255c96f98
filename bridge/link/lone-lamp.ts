import { connect } from 'mqtt'
import type { Clock } from '#core/measure/clock'
import { isSettledWithin } from '#core/measure/settled-within'
import { alarmTopic, levelTopic } from '#core/wire/lamp-topics'
import type { LampSettings } from '#core/wire/tell-settings'
import type { LoneLamp } from './lone-alarm.ts'

/** What the broker may take for the last word, ms. */
const LAST_WORD_MS = 1000

/** Lights a pot's lamp from the bridge, as the server would. What stands goes out again at each connect. */
export function openLoneLamp(settings: LampSettings, clientId: string, clock: Clock): LoneLamp {
  const standing = new Map<string, string>()
  const client = connect(settings.url, {
    clientId,
    ...(settings.user === undefined ? {} : { username: settings.user }),
    ...(settings.password === undefined ? {} : { password: settings.password }),
    clean: true,
    keepalive: 10,
    reconnectPeriod: 2000,
    reconnectOnConnackError: true,
  })
  const send = (topic: string, payload: string) => {
    if (client.connected) client.publish(topic, payload, { qos: 1, retain: true })
  }
  client.on('connect', () => {
    for (const [topic, payload] of standing) send(topic, payload)
  })
  // A broker that is away is tried again for as long as the call lasts; the bridge has said its sentence already.
  client.on('error', () => undefined)
  const set = (topic: string, payload: string) => {
    standing.set(topic, payload)
    send(topic, payload)
  }
  const end = async () => {
    const ended = client.endAsync(!client.connected)
    if (!(await isSettledWithin(clock, ended, LAST_WORD_MS))) client.stream.destroy()
  }
  return {
    show: (pot, level, text) => {
      set(levelTopic(pot), String(level))
      set(alarmTopic(pot), JSON.stringify(stateOf(level, text)))
    },
    end: () => void end(),
  }
}

/** The shape of the pot's topic in `docs/lamp.md`; the bridge knows no more than this. */
const stateOf = (level: 1 | 4, text: string) => ({
  level,
  alarm: 'above-ceiling',
  urgency: 'at-once',
  state: level === 4 ? 'unacknowledged' : 'returned-unacknowledged',
  sinceAt: null,
  text,
  alarms: 1,
})
