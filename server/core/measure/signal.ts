import { currentLoopC } from './current-loop.ts'
import { platinumC } from './platinum.ts'
import type { ProbeFault } from './reading.ts'
import { sixteenthsC } from './scratchpad.ts'
import { type OhmsAtC, steinhartHartThrough, thermistorByBetaC, thermistorC } from './thermistor.ts'
import { thermocoupleC, type ThermocoupleType } from './thermocouple.ts'

/** What an electrical signal is. Resistances in ohms, voltages in millivolts, currents in milliamperes. */
export type Signal =
  | { readonly kind: 'platinum'; readonly ohms0: number; readonly leadOhms: number }
  | { readonly kind: 'thermocouple'; readonly type: ThermocoupleType; readonly coldC: number }
  | { readonly kind: 'ntc-beta'; readonly ohms25: number; readonly betaK: number }
  | { readonly kind: 'ntc-steinhart'; readonly a: number; readonly b: number; readonly c: number }
  | { readonly kind: 'ntc-table'; readonly points: readonly [OhmsAtC, OhmsAtC, OhmsAtC] }
  | { readonly kind: 'current-loop'; readonly at4mAC: number; readonly at20mAC: number }
  | { readonly kind: 'sixteenths' }

export type SignalValue =
  | { readonly ok: true; readonly rawC: number }
  | { readonly ok: false; readonly fault: ProbeFault; readonly found: string }

/** °C of a signal, or the fault that it stands for. */
export function signalC(signal: Signal, value: number): SignalValue {
  switch (signal.kind) {
    case 'platinum':
      return resistance(value, platinumC(signal.ohms0, value - signal.leadOhms))
    case 'thermocouple':
      return measured(thermocoupleC(signal.type, value, signal.coldC), `${value} mV`)
    case 'ntc-beta':
      return resistance(value, thermistorByBetaC(value, signal.ohms25, signal.betaK))
    case 'ntc-steinhart':
      return resistance(value, thermistorC(value, signal))
    case 'ntc-table':
      return resistance(value, thermistorC(value, steinhartHartThrough(signal.points)))
    case 'current-loop': {
      const loop = currentLoopC(value, signal.at4mAC, signal.at20mAC)
      return loop.ok ? { ok: true, rawC: loop.tempC } : loop
    }
    case 'sixteenths':
      return Number.isInteger(value)
        ? { ok: true, rawC: sixteenthsC(value) }
        : { ok: false, fault: 'error-code', found: `${value} counts` }
    default:
      return signal satisfies never
  }
}

/** What a resistance sensor cannot be while it is whole, °C: beyond it the wire is broken or shorted. */
const WHOLE_C = { low: -60, high: 200 } as const

function resistance(ohms: number, rawC: number): SignalValue {
  if (rawC >= WHOLE_C.low && rawC <= WHOLE_C.high) return { ok: true, rawC }
  return { ok: false, fault: 'not-connected', found: `${ohms} ohm: open or short circuit` }
}

const measured = (rawC: number, found: string): SignalValue =>
  Number.isNaN(rawC)
    ? { ok: false, fault: 'not-connected', found: `${found}: open circuit` }
    : { ok: true, rawC }
