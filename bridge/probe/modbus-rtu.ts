import type { Cancel } from '#core/measure/clock'
import { sampleOf } from '#core/measure/sample-of'
import { signalC } from '#core/measure/signal'
import { celsius } from '#core/measure/units'
import type { ModbusRegister } from '#core/wire/probe-kinds/modbus-rtu'
import type { SettingsOf } from '#core/wire/probe-settings'
import { registerValue, registerWords } from './modbus-value.ts'
import { type ModbusPort, openModbusPort } from './modbus-port.ts'
import { SerialWay } from './serial-way.ts'
import type { OpenSource, Sink, World } from './source.ts'

/** Registers of Modbus RTU stations on one serial line, read in turn; one request under way at a time. */
export const openModbusRtu: OpenSource<SettingsOf<'modbus-rtu'>> = (settings, sink, world) => {
  let stop: (() => void) | null = null
  const door: { port: ModbusPort | null } = { port: null }
  const way = new SerialWay({
    settings,
    sink,
    world,
    open: async (path, options, listener) => {
      door.port = await openModbusPort(path, options, settings.timeoutMs, listener)
      return door.port
    },
    user: {
      opened: () => (stop = pollRegisters(settings, door.port!, sink, world)),
      data: () => {},
      lost: () => stop?.(),
    },
  })
  return {
    close: () => {
      stop?.()
      return way.close()
    },
  }
}

/** Reads all registers every `everyS` until the answer is called. A station that is silent never stops the others. */
function pollRegisters(
  settings: SettingsOf<'modbus-rtu'>,
  port: ModbusPort,
  sink: Sink,
  world: World,
): () => void {
  let isStopped = false
  let cancel: Cancel | null = null
  const round = async (): Promise<void> => {
    const startMs = world.clock.nowMs()
    for (const register of settings.registers) {
      if (!isStopped) await readOne(register, settings.name, port, sink, world, () => isStopped)
    }
    const restMs = Math.max(0, settings.everyS * 1000 - (world.clock.nowMs() - startMs))
    if (!isStopped) cancel = world.clock.after(restMs, () => void round())
  }
  void round()
  return () => {
    isStopped = true
    cancel?.()
  }
}

async function readOne(
  register: ModbusRegister,
  source: string,
  port: ModbusPort,
  sink: Sink,
  world: World,
  isStopped: () => boolean,
): Promise<void> {
  const answer = await port.read(
    register.station,
    register.function,
    register.address,
    registerWords(register.type),
  )
  if (isStopped()) return
  if (!answer.ok)
    return sink.refused(`station ${register.station}, register ${register.address}: ${answer.why}`)
  const probe = register.name ?? source
  const atMs = world.clock.nowMs()
  const value =
    registerValue(answer.words, register.type, register.wordOrder) * register.scale + register.offset
  if (register.signal === undefined) {
    return sink.sample(sampleOf(probe, atMs, register.unit === 'F' ? celsius(value) : value))
  }
  const found = signalC(register.signal, value)
  sink.sample(
    found.ok
      ? sampleOf(probe, atMs, found.rawC)
      : { kind: 'fault', probe, atMs, fault: found.fault, found: found.found.slice(0, 80) },
  )
}
