import { readNumber } from '#core/measure/read-number'

/** The kinds of probe that the page can add; a simulated pot needs a vessel and stays with the settings file. */
export const ADDABLE_KINDS = [
  'serial-lines',
  'serial-senml',
  'modbus-rtu',
  'mqtt',
  'one-wire-files',
  'recorded',
] as const
export type AddableKind = (typeof ADDABLE_KINDS)[number]

/** What a form holds, as typed. */
export interface ProbeTexts {
  readonly name: string
  readonly path: string
  readonly baud: string
  readonly line: string
  readonly station: string
  readonly address: string
  readonly scale: string
  readonly url: string
  readonly topic: string
  readonly pointer: string
  readonly folder: string
  readonly device: string
  readonly file: string
  readonly lagS: string
}
export type ProbeField = keyof ProbeTexts

export const EMPTY_PROBE: ProbeTexts = {
  name: '',
  path: '',
  baud: '9600',
  line: '{tempC}',
  station: '1',
  address: '0',
  scale: '0.1',
  url: 'mqtt://127.0.0.1:1883',
  topic: '',
  pointer: '',
  folder: '/sys/bus/w1/devices',
  device: '',
  file: '',
  lagS: '',
}

const FIELDS: Readonly<Record<AddableKind, readonly ProbeField[]>> = {
  'serial-lines': ['path', 'baud', 'line'],
  'serial-senml': ['path', 'baud'],
  'modbus-rtu': ['path', 'baud', 'station', 'address', 'scale'],
  mqtt: ['url', 'topic', 'pointer'],
  'one-wire-files': ['folder', 'device'],
  recorded: ['file'],
}

/** The fields of a kind, between its name and its lag. */
export const fieldsOf = (kind: AddableKind): readonly ProbeField[] => FIELDS[kind]

/** One entry of `probes`. What is no number goes on as it was typed: the server's sentence says what is allowed. */
export function probeSetting(kind: AddableKind, texts: ProbeTexts): object {
  const text = (field: ProbeField) => texts[field].trim()
  const number = (field: ProbeField) => readNumber(texts[field]) ?? texts[field]
  const lag = text('lagS') === '' ? {} : { lagS: number('lagS') }
  const common = { name: text('name'), kind, ...lag }
  const port = { path: text('path'), baud: number('baud') }
  switch (kind) {
    case 'serial-lines':
      return { ...common, ...port, line: texts.line }
    case 'serial-senml':
      return { ...common, ...port }
    case 'modbus-rtu': {
      const register = { station: number('station'), address: number('address'), scale: number('scale') }
      return { ...common, ...port, registers: [register] }
    }
    case 'mqtt': {
      const payload = text('pointer') === '' ? {} : { payload: { pointer: text('pointer') } }
      return { ...common, url: text('url'), topic: text('topic'), ...payload }
    }
    case 'one-wire-files': {
      const devices = text('device') === '' ? {} : { devices: { [text('device')]: text('name') } }
      return { ...common, folder: text('folder'), ...devices }
    }
    case 'recorded':
      return { ...common, file: text('file') }
    default:
      return kind satisfies never
  }
}
