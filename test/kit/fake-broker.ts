import type { LampBroker } from '../../server/tell/lamp.ts'

/** A broker that keeps what is retained and can go away. */
export class FakeBroker implements LampBroker {
  isConnected = false
  readonly retained = new Map<string, string>()
  readonly published: string[] = []
  readonly #connected: (() => void)[] = []

  publish(topic: string, payload: string) {
    if (!this.isConnected) throw new Error(`${topic} published while the broker was away`)
    this.published.push(`${topic} ${payload}`)
    this.retained.set(topic, payload)
  }
  onConnect(fn: () => void) {
    this.#connected.push(fn)
  }
  connect() {
    this.isConnected = true
    for (const fn of this.#connected) fn()
  }
  end = () => Promise.resolve()
  cut() {
    this.isConnected = false
  }
}
