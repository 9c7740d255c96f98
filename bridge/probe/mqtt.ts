import { connect, type IPublishPacket, type MqttClient } from 'mqtt'
import type { Cancel } from '#core/measure/clock'
import { topicMatches } from '#core/measure/topic'
import type { SettingsOf } from '#core/wire/probe-settings'
import { waitMs } from './backoff.ts'
import { probeOfTopic, tellMessage } from './message-samples.ts'
import { mqttOptions } from './mqtt-options.ts'
import { shownUrl } from '#core/wire/probe-secrets'
import type { OpenSource, Sink, Source, World } from './source.ts'

type MqttSettings = SettingsOf<'mqtt'>

/** A probe that publishes to an MQTT broker. */
export const openMqtt: OpenSource<MqttSettings> = (settings, sink, world) =>
  new MqttWay(settings, sink, world)

const BACKOFF = { firstMs: 250, longestMs: 10_000 }

/** Connections that end within this time of their beginning look like another client with our name, ms. */
const SHORT_LIFE_MS = 3000
const SHORT_LIVES_ALLOWED = 3
/** After that the broker is left alone for a minute, ms. */
const TAKEOVER_PAUSE_MS = 60_000

class MqttWay implements Source {
  readonly #settings: MqttSettings
  readonly #sink: Sink
  readonly #world: World
  /** For sentences: passwords don't belong there. */
  readonly #url: string
  #client: MqttClient | null = null
  #cancel: Cancel | null = null
  #attempt = 0
  #shortLives = 0
  #why = ''
  #isClosed = false

  constructor(settings: MqttSettings, sink: Sink, world: World) {
    this.#settings = settings
    this.#sink = sink
    this.#world = world
    this.#url = shownUrl(settings.url)
    this.#connect()
  }

  async close(): Promise<void> {
    this.#isClosed = true
    this.#cancel?.()
    await this.#client?.endAsync(true)
  }

  /** A new client each time: an old one may be in any state after its connection was lost. */
  #connect(): void {
    const options = mqttOptions(this.#settings, this.#world, `probe ${this.#settings.name}`)
    if (typeof options === 'string') return this.#retry(options)
    this.#why = `the broker ${this.#url} does not answer; is it running?`
    const client = connect(this.#settings.url, options)
    let connectedMs: number | null = null
    this.#client = client
    client.on('connect', () => {
      connectedMs = this.#world.clock.nowMs()
      this.#subscribe(client)
    })
    client.on('message', (topic, payload, packet) => this.#message(topic, payload, packet))
    client.on('error', (error) => (this.#why = brokerTrouble(this.#url, error)))
    client.on('close', () => this.#closed(client, connectedMs))
  }

  #subscribe(client: MqttClient): void {
    const topics = [
      this.#settings.topic,
      ...(this.#settings.gone === undefined ? [] : [this.#settings.gone.topic]),
    ]
    client.subscribe(topics, { qos: 1 }, (error, granted) => {
      const isRefused = error !== null || granted?.some((g) => g.qos >= 128)
      if (isRefused) {
        this.#why = `the broker ${this.#url} does not allow the topic ${this.#settings.topic}; look at its access rules`
        return client.end(true)
      }
      this.#attempt = 0
      this.#sink.way('open', `${this.#settings.topic} is subscribed at ${this.#url}`)
      return undefined
    })
  }

  #message(topic: string, payload: Uint8Array, packet: IPublishPacket): void {
    if (this.#isClosed) return
    if (this.#isGone(topic, payload)) return
    if (!topicMatches(this.#settings.topic, topic)) return
    // The broker hands a retained message to every new subscriber: it may be of yesterday.
    if (packet.retain) return this.#sink.refused('a retained message: the broker kept it, it may be old')
    tellMessage(this.#settings, topic, payload, this.#world.clock.nowMs(), this.#sink)
  }

  #isGone(topic: string, payload: Uint8Array): boolean {
    const { gone, nameLevel, name } = this.#settings
    if (gone === undefined || !topicMatches(gone.topic, topic)) return false
    const isLastWill = new TextDecoder().decode(payload) === gone.payload
    const probe = probeOfTopic(gone.topic, nameLevel, topic, name)
    if (isLastWill && probe !== null)
      this.#sink.gone(probe, `the broker says that ${probe} has gone; is its battery empty?`)
    return isLastWill
  }

  #closed(client: MqttClient, connectedMs: number | null): void {
    if (this.#isClosed || this.#client !== client) return
    this.#client = null
    client.removeAllListeners()
    client.on('error', () => {})
    client.end(true)
    this.#retry(this.#why, connectedMs)
  }

  #retry(why: string, connectedMs: number | null = null): void {
    const nowMs = this.#world.clock.nowMs()
    if (connectedMs !== null)
      this.#shortLives = nowMs - connectedMs < SHORT_LIFE_MS ? this.#shortLives + 1 : 0
    const isTakeover = this.#shortLives > SHORT_LIVES_ALLOWED
    if (isTakeover) this.#shortLives = 0
    this.#sink.way('trouble', isTakeover ? takeoverSentence(this.#url) : why)
    const delayMs = isTakeover ? TAKEOVER_PAUSE_MS : waitMs(BACKOFF, this.#attempt++, this.#world.random())
    this.#cancel = this.#world.clock.after(delayMs, () => this.#connect())
  }
}

const takeoverSentence = (url: string): string =>
  `${url} ends each connection at once: a second bridge uses the same name there; stop one of the two ` +
  `(this one waits a minute)`

function brokerTrouble(url: string, error: Error): string {
  const { message } = error
  if (/bad user|not authori[sz]ed|auth/i.test(message))
    return `the broker ${url} refuses user or password; look at "user" and "password" of this probe`
  if (/certificate|self.signed|altname|TLS|SSL/i.test(message))
    return `the broker ${url} has a certificate that is not trusted here (${message.slice(0, 100)}); name its authority with "caFile"`
  if (/ENOTFOUND|EAI_AGAIN/.test(message)) return `no computer is called as in ${url}; look at the address`
  return `the broker ${url} does not answer (${message.slice(0, 100) || 'no connection'}); is it running?`
}
