import type {
  AlarmMessage,
  NoticeMessage,
  PotLive,
  PotNumbers,
  Pulse,
  ReadingMessage,
  StoveLive,
} from '#core/wire/live'

/** Everything that changes what is on screen. `hereMs`: this device's clock when it arrived, Unix ms. */
export type StoveMessage =
  | { readonly kind: 'stove'; readonly stove: StoveLive; readonly hereMs: number }
  | { readonly kind: 'pulse'; readonly pulse: Pulse; readonly hereMs: number }
  | { readonly kind: 'reading'; readonly reading: ReadingMessage }
  | { readonly kind: 'alarm'; readonly alarm: AlarmMessage }
  | { readonly kind: 'notice'; readonly notice: NoticeMessage }
  | { readonly kind: 'left-out' }
  | { readonly kind: 'link'; readonly link: 'up' | 'down' }
  | { readonly kind: 'silence'; readonly silent: boolean }

/** What this page knows of the stove. */
export interface StoveState {
  /** `null` until the whole picture has come once. */
  readonly pots: readonly PotLive[] | null
  readonly link: 'connecting' | 'up' | 'down'
  /** No pulse for so long that nothing on screen may be trusted. */
  readonly silent: boolean
  /** The newest message of every alarm that isn't over yet. */
  readonly alarms: readonly AlarmMessage[]
  /** Newest first. */
  readonly notices: readonly NoticeMessage[]
  /** More was missed than came: what is older stands in the record alone. */
  readonly isMoreInRecord: boolean
  /** Every message up to this id has been taken in. `null`: this device has never been told anything. */
  readonly lastId: number | null
  /** How many pages and devices would sound an alarm now. */
  readonly listeners: number
  readonly trouble: string | null
  /** The server's clock minus this device's, ms: ages are told by the server's clock. */
  readonly aheadMs: number
}

export const emptyStove = (lastId: number | null): StoveState => ({
  pots: null,
  link: 'connecting',
  silent: false,
  alarms: [],
  notices: [],
  isMoreInRecord: false,
  lastId,
  listeners: 0,
  trouble: null,
  aheadMs: 0,
})

/** So many notices are kept on a page; the record has all of them. */
export const NOTICES_KEPT = 60

/** The next state after one message. Pure. */
export function stepStove(state: StoveState, message: StoveMessage): StoveState {
  switch (message.kind) {
    case 'stove':
      return withPicture(state, message.stove, message.hereMs)
    case 'pulse':
      return withPulse(state, message.pulse, message.hereMs)
    case 'reading':
      return withReading(state, message.reading)
    case 'alarm':
      return withAlarm(state, message.alarm)
    case 'notice':
      return withNotice(state, message.notice)
    case 'left-out':
      return { ...state, isMoreInRecord: true }
    case 'link':
      return { ...state, link: message.link }
    case 'silence':
      return { ...state, silent: message.silent }
    default:
      return message satisfies never
  }
}

function withPicture(state: StoveState, stove: StoveLive, hereMs: number): StoveState {
  return {
    ...state,
    link: 'up',
    silent: false,
    pots: stove.pots,
    alarms: stove.alarms.filter(isOpen),
    // A page that already knows an id waits for what it missed; jumping ahead here would lose that on a second cut.
    lastId: state.lastId ?? stove.lastId,
    listeners: stove.listeners,
    trouble: stove.trouble,
    aheadMs: stove.atMs - hereMs,
  }
}

function withPulse(state: StoveState, pulse: Pulse, hereMs: number): StoveState {
  const byId = new Map(pulse.pots.map((numbers) => [numbers.potId, numbers]))
  const merge = (pot: PotLive): PotLive => ({ ...pot, ...byId.get(pot.potId) })
  return {
    ...state,
    silent: false,
    pots: state.pots?.map(merge) ?? null,
    listeners: pulse.listeners,
    trouble: pulse.trouble,
    aheadMs: pulse.atMs - hereMs,
  }
}

/** A reading moves a pot's last reading on; the estimate itself comes with the pulse. */
function withReading(state: StoveState, reading: ReadingMessage): StoveState {
  if (state.pots === null || reading.tempC === null || reading.verdict !== 'good') return state
  const tempC = reading.tempC
  const isNews = (pot: PotNumbers) =>
    pot.probe === reading.probe && (pot.lastReadingMs === null || pot.lastReadingMs < reading.atMs)
  if (!state.pots.some(isNews)) return state
  const moved = (pot: PotLive): PotLive =>
    isNews(pot) ? { ...pot, lastReadingMs: reading.atMs, lastReadingC: tempC } : pot
  return { ...state, pots: state.pots.map(moved) }
}

function withAlarm(state: StoveState, alarm: AlarmMessage): StoveState {
  const known = state.alarms.find((a) => a.alarmId === alarm.alarmId)
  const lastId = Math.max(state.lastId ?? 0, alarm.id)
  // A message replayed after a cut may be older than what the whole picture already said.
  if (known !== undefined && known.id > alarm.id) return { ...state, lastId }
  const others = state.alarms.filter((a) => a.alarmId !== alarm.alarmId)
  return { ...state, lastId, alarms: isOpen(alarm) ? [...others, alarm] : others }
}

function withNotice(state: StoveState, notice: NoticeMessage): StoveState {
  const lastId = Math.max(state.lastId ?? 0, notice.id)
  if (state.notices.some((n) => n.id === notice.id)) return { ...state, lastId }
  const notices = [notice, ...state.notices].sort((a, b) => b.id - a.id).slice(0, NOTICES_KEPT)
  return { ...state, lastId, notices }
}

const isOpen = (alarm: AlarmMessage): boolean => alarm.state !== 'normal' && alarm.state !== 'out-of-service'
