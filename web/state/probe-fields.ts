/** The kinds of probe that have a form; a simulated pot needs a vessel and is set as text. */
export const ADDABLE_KINDS = [
  'serial-lines',
  'serial-senml',
  'modbus-rtu',
  'mqtt',
  'one-wire-files',
  'recorded',
] as const
export type AddableKind = (typeof ADDABLE_KINDS)[number]

/** How a field is typed: a word, a text whose blanks count, a number, a secret, or one of a few words (empty: the usual). */
export type FieldShape = 'word' | 'text' | 'number' | 'secret' | readonly string[]

interface FieldPlace {
  /** Where it stands in an entry of `probes`; `null` for one that is put together. */
  readonly at: readonly (string | number)[] | null
  readonly shape: FieldShape
}

const at = (path: string, shape: FieldShape): FieldPlace => ({ at: path.split('.'), shape })
/** Of the first register; further ones are set as text. */
const register = (name: string, shape: FieldShape): FieldPlace => ({ at: ['registers', 0, name], shape })
const made = (shape: FieldShape): FieldPlace => ({ at: null, shape })

const PLACES = {
  name: at('name', 'word'),
  title: at('title', 'word'),
  lagS: at('lagS', 'number'),
  silentAfterS: at('silentAfterS', 'number'),
  enabled: at('enabled', ['', 'false']),
  bridge: at('bridge', 'word'),
  path: at('path', 'word'),
  vendorId: at('usb.vendorId', 'word'),
  productId: at('usb.productId', 'word'),
  serialNumber: at('usb.serialNumber', 'word'),
  baud: at('baud', 'number'),
  dataBits: at('dataBits', ['', '7', '8']),
  parity: at('parity', ['', 'none', 'even', 'odd']),
  stopBits: at('stopBits', ['', '1', '2']),
  line: at('line', 'text'),
  names: made('word'),
  wake: at('wake', 'text'),
  askQuery: at('ask.query', 'text'),
  askEveryS: at('ask.everyS', 'number'),
  station: register('station', 'number'),
  function: register('function', ['3', '4']),
  address: register('address', 'number'),
  type: register('type', ['int16', 'uint16', 'int32', 'float32']),
  wordOrder: register('wordOrder', ['big', 'little']),
  scale: register('scale', 'number'),
  offset: register('offset', 'number'),
  registerUnit: register('unit', ['C', 'F']),
  everyS: at('everyS', 'number'),
  timeoutMs: at('timeoutMs', 'number'),
  url: at('url', 'word'),
  topic: at('topic', 'word'),
  user: at('user', 'word'),
  password: at('password', 'secret'),
  payload: made(['number', 'senml']),
  pointer: made('word'),
  battery: made('word'),
  unit: at('unit', ['C', 'F']),
  nameLevel: at('nameLevel', 'number'),
  goneTopic: at('gone.topic', 'word'),
  gonePayload: at('gone.payload', 'text'),
  caFile: at('caFile', 'word'),
  version: at('version', ['4', '5']),
  folder: at('folder', 'word'),
  device: made('word'),
  file: at('file', 'word'),
  speed: at('speed', 'number'),
  repeat: at('repeat', ['', 'true']),
} satisfies Readonly<Record<string, FieldPlace>>

export type ProbeField = keyof typeof PLACES
export const placeOf = (field: ProbeField): FieldPlace => PLACES[field]
export const ALL_FIELDS = Object.keys(PLACES) as readonly ProbeField[]

const PORT_MORE = [
  'vendorId',
  'productId',
  'serialNumber',
  'dataBits',
  'parity',
  'stopBits',
] as const satisfies readonly ProbeField[]
const ALL_MORE = ['title', 'silentAfterS', 'enabled', 'bridge'] as const satisfies readonly ProbeField[]

interface KindFields {
  readonly first: readonly ProbeField[]
  readonly more: readonly ProbeField[]
}

const FIELDS: Readonly<Record<AddableKind, KindFields>> = {
  'serial-lines': {
    first: ['path', 'baud', 'line'],
    more: ['names', 'wake', 'askQuery', 'askEveryS', ...PORT_MORE],
  },
  'serial-senml': { first: ['path', 'baud'], more: ['wake', ...PORT_MORE] },
  'modbus-rtu': {
    first: ['path', 'baud', 'station', 'function', 'address', 'type', 'wordOrder', 'scale'],
    more: ['offset', 'registerUnit', 'everyS', 'timeoutMs', ...PORT_MORE],
  },
  mqtt: {
    first: ['url', 'topic', 'payload', 'pointer', 'user', 'password'],
    more: ['unit', 'battery', 'nameLevel', 'goneTopic', 'gonePayload', 'caFile', 'version'],
  },
  'one-wire-files': { first: ['folder', 'device'], more: ['everyS'] },
  recorded: { first: ['file'], more: ['speed', 'repeat'] },
}

/** The fields of a kind: those that most need, between name and lag, and what is seldom wanted. */
export const fieldsOf = (kind: AddableKind): KindFields => ({
  first: FIELDS[kind].first,
  more: [...FIELDS[kind].more, ...ALL_MORE],
})
