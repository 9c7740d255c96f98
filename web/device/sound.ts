import type { Sounding } from '../state/sounding.ts'
import { RHYTHMS, type RhythmName, renderRhythm } from './rhythms.ts'

/** The device's loudspeaker. */
export interface Sound {
  /** Must be called from a tap or a key: browsers let no page sound by itself. True when it may sound now. */
  switchOn(): Promise<boolean>
  switchOff(): void
  /** Goes over to this; the same loop or tone again changes nothing. `loudness01`: 0 … 1. */
  play(sounding: Sounding, loudness01: number): void
  /** One bar, whatever else is going on: a person tries the loudness. */
  tryOut(rhythm: RhythmName, loudness01: number): void
}

/** A tone reminds once after so long, s. */
const REMINDER_S = 120

/**
 * Loops and reminders are scheduled on the audio clock, never on a page timer: browsers slow those down to
 * once a minute in a hidden page, and an alarm must go on there.
 * @param changed told whenever the browser lets the page sound or stops it.
 */
export function openSound(changed: (on: boolean) => void): Sound {
  let context: AudioContext | null = null
  let now: { readonly key: string; readonly stop: () => void } | null = null

  const isOn = () => context?.state === 'running'

  function start(rhythm: RhythmName, loudness01: number, how: 'loop' | 'once', afterS = 0): () => void {
    if (context === null) return () => undefined
    const samples = renderRhythm(RHYTHMS[rhythm], context.sampleRate)
    const buffer = context.createBuffer(1, samples.length, context.sampleRate)
    buffer.copyToChannel(samples, 0)
    const source = new AudioBufferSourceNode(context, { buffer, loop: how === 'loop' })
    const gain = new GainNode(context, { gain: loudness01 })
    source.connect(gain).connect(context.destination)
    source.start(context.currentTime + afterS)
    return () => {
      source.stop()
      source.disconnect()
      gain.disconnect()
    }
  }

  function startSounding(sounding: Exclude<Sounding, { kind: 'quiet' }>, loudness01: number): () => void {
    if (sounding.kind === 'loop') return start(sounding.rhythm, loudness01, 'loop')
    const stops = [start(sounding.rhythm, loudness01, 'once')]
    if (sounding.rhythm === 'soon') stops.push(start(sounding.rhythm, loudness01, 'once', REMINDER_S))
    return () => stops.forEach((stop) => stop())
  }

  return {
    async switchOn() {
      if (context === null) {
        context = new AudioContext({ latencyHint: 'interactive' })
        context.addEventListener('statechange', () => changed(isOn()))
      }
      // Without a tap the promise stays open for good, so it is raced against a moment.
      await Promise.race([context.resume(), new Promise((done) => setTimeout(done, 300))])
      changed(isOn())
      return isOn()
    },
    switchOff() {
      now?.stop()
      now = null
      void context?.close()
      context = null
      changed(false)
    },
    play(sounding, loudness01) {
      const key = soundingKey(sounding, loudness01)
      if (!isOn() || now?.key === key) return
      now?.stop()
      now = { key, stop: sounding.kind === 'quiet' ? () => undefined : startSounding(sounding, loudness01) }
    },
    tryOut(rhythm, loudness01) {
      if (isOn()) start(rhythm, loudness01, 'once')
    },
  }
}

function soundingKey(sounding: Sounding, loudness01: number): string {
  switch (sounding.kind) {
    case 'quiet':
      return 'quiet'
    case 'loop':
      return `${sounding.rhythm} ${loudness01}`
    case 'tone':
      return sounding.key
    default:
      return sounding satisfies never
  }
}
