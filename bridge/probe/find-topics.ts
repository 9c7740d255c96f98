import { connect, type MqttClient } from 'mqtt'
import type { Candidate } from '#core/wire/bridge-link'
import type { ProbeSettings } from '#core/wire/probe-settings'
import { said, silentCandidate } from './candidate.ts'
import { mqttOptions } from './mqtt-options.ts'
import { shownUrl } from '#core/wire/probe-secrets'
import type { World } from './source.ts'

/** A busy broker has more topics than a person can look through. */
const MAX_TOPICS = 500

/** Topics of every broker that the settings know, with what they say; a broker is not searched for in the network. */
export class FindTopics {
  readonly #world: World
  readonly #used: () => readonly ProbeSettings[]
  readonly #found = new Map<string, Candidate>()
  readonly #brokers = new Map<string, MqttClient>()

  constructor(world: World, used: () => readonly ProbeSettings[]) {
    this.#world = world
    this.#used = used
  }

  candidates(): readonly Candidate[] {
    return [...this.#found.values()]
  }

  look(): void {
    for (const settings of this.#used()) {
      if (settings.kind !== 'mqtt' || this.#brokers.has(settings.url)) continue
      const options = mqttOptions(settings, this.#world, `find ${settings.url}`)
      if (typeof options === 'string') continue
      const client = connect(settings.url, { ...options, reconnectPeriod: 5000 })
      this.#brokers.set(settings.url, client)
      client.on('error', () => {})
      client.on('connect', () => client.subscribe('#'))
      client.on('message', (topic, payload, packet) => {
        if (!packet.retain) this.#heard(settings.url, topic, payload)
      })
    }
  }

  async close(): Promise<void> {
    await Promise.all([...this.#brokers.values()].map((client) => client.endAsync(true)))
  }

  #heard(url: string, topic: string, payload: Uint8Array): void {
    const key = `${url} ${topic}`
    if (!this.#found.has(key) && this.#found.size >= MAX_TOPICS) return
    const text = new TextDecoder().decode(payload.subarray(0, 500))
    const usedBy =
      this.#used().find((p) => p.kind === 'mqtt' && p.url === url && p.topic === topic)?.name ?? null
    this.#found.set(key, {
      ...silentCandidate('mqtt', topic, shownUrl(url)),
      usedBy,
      ...said(text, this.#world.clock.nowMs()),
    })
  }
}
