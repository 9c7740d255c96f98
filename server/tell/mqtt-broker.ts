import { type IClientOptions, type MqttClient, connect } from 'mqtt'
import { ALIVE_TOPIC } from '#core/wire/lamp-topics'
import type { LampSettings } from '#core/wire/tell-settings'
import type { LampBroker } from './lamp.ts'

/** Short enough that the broker misses a frozen computer after 15 s (one and a half times this, MQTT 3.1.1 §3.1.2.10). */
const KEEPALIVE_S = 10
const RECONNECT_MS = 2_000

/**
 * A connection to the lamps' broker that comes back by itself. `clientName` must be unique at the broker, or two
 * programs push each other out for ever.
 */
export function connectBroker(
  settings: LampSettings,
  clientName: string,
  onTrouble: (sentence: string) => void,
): LampBroker {
  const client = connect(settings.url, optionsOf(settings, clientName))
  const where = new URL(settings.url).host
  let toldOf = ''
  client.on('error', (error) => {
    const sentence = `the lamps' broker ${where} can't be reached: ${error.message || 'no answer'}`
    if (sentence !== toldOf) onTrouble(sentence)
    toldOf = sentence
  })
  client.on('connect', () => (toldOf = ''))
  return brokerOf(client, onTrouble)
}

const optionsOf = (settings: LampSettings, clientId: string): IClientOptions => ({
  clientId,
  ...(settings.user === undefined ? {} : { username: settings.user }),
  ...(settings.password === undefined ? {} : { password: settings.password }),
  clean: true,
  keepalive: KEEPALIVE_S,
  reconnectPeriod: RECONNECT_MS,
  reconnectOnConnackError: true,
  queueQoSZero: false,
  will: { topic: ALIVE_TOPIC, payload: Buffer.from('0'), qos: 1, retain: true },
})

const brokerOf = (client: MqttClient, onTrouble: (sentence: string) => void): LampBroker => ({
  get isConnected() {
    return client.connected
  },
  publish: (topic, payload) => {
    client.publish(topic, payload, { qos: 1, retain: true }, (error) => {
      if (error) onTrouble(`the lamps' broker did not take ${topic}: ${error.message}`)
    })
  },
  onConnect: (fn) => void client.on('connect', fn),
  end: () => client.endAsync(!client.connected),
  // The library ends only once, so an end that hangs can't be forced by another.
  cut: () => void client.stream.destroy(),
})
