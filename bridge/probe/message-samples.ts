import { atPointer } from '#core/measure/json-pointer'
import { readNumber } from '#core/measure/read-number'
import type { Sample } from '#core/measure/reading'
import { sampleOf } from '#core/measure/sample-of'
import { signalC } from '#core/measure/signal'
import { wildcardLevel } from '#core/measure/topic'
import { celsius } from '#core/measure/units'
import type { SettingsOf } from '#core/wire/probe-settings'
import { tellSenml } from './senml-samples.ts'
import type { Sink } from './source.ts'

type MqttSettings = SettingsOf<'mqtt'>

/** No probe's message is longer, bytes. */
const MAX_MESSAGE_BYTES = 65_536

/** Tells one MQTT message to the sink: a bare number, SenML, or JSON with a pointer. */
export function tellMessage(
  settings: MqttSettings,
  topic: string,
  payload: Uint8Array,
  atMs: number,
  sink: Sink,
): void {
  const probe = probeOfTopic(settings.topic, settings.nameLevel, topic, settings.name)
  if (probe === null)
    return sink.refused(`topic "${topic.slice(0, 80)}" has no level that can be a probe's name`)
  if (payload.length > MAX_MESSAGE_BYTES) return sink.refused(`a message of ${payload.length} bytes`)
  const text = new TextDecoder().decode(payload)
  if (settings.payload === 'senml') return tellSenml(text, atMs, sink, () => probe)
  if (settings.payload === 'number') return sink.sample(numberSample(settings, probe, atMs, text.trim()))
  tellJson(settings, settings.payload, probe, text, atMs, sink)
}

/** The probe a topic belongs to; `null` when its name can't be one. */
export function probeOfTopic(
  filter: string,
  nameLevel: number | undefined,
  topic: string,
  name: string,
): string | null {
  const level = nameLevel ?? wildcardLevel(filter)
  if (level === null) return name
  const found = topic.split('/')[level]
  return found !== undefined && /^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$/.test(found) ? found : null
}

function tellJson(
  settings: MqttSettings,
  at: Extract<MqttSettings['payload'], object>,
  probe: string,
  text: string,
  atMs: number,
  sink: Sink,
): void {
  const document = parseJson(text)
  if (document === undefined) return sink.refused(`a message that is not JSON: "${text.slice(0, 60)}"`)
  const value = atPointer(document, at.pointer)
  if (value === undefined) return sink.refused(`a message with nothing at ${at.pointer}`)
  sink.sample(numberSample(settings, probe, atMs, typeof value === 'string' ? value : JSON.stringify(value)))
  const battery = at.battery === undefined ? undefined : atPointer(document, at.battery)
  if (typeof battery === 'number' && battery >= 0 && battery <= 100) sink.battery(probe, battery)
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown
  } catch {
    return undefined
  }
}

function numberSample(settings: MqttSettings, probe: string, atMs: number, text: string): Sample {
  const number = readNumber(text)
  if (number === null) return sampleOf(probe, atMs, NaN, text === '' ? 'empty' : text)
  if (settings.signal !== undefined) {
    const value = signalC(settings.signal, number)
    if (!value.ok) return { kind: 'fault', probe, atMs, fault: value.fault, found: value.found.slice(0, 80) }
    return sampleOf(probe, atMs, value.rawC, text)
  }
  return sampleOf(probe, atMs, settings.unit === 'F' ? celsius(number) : number, `${text} °${settings.unit}`)
}
