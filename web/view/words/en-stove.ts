import type { StageState } from '#core/batch/stage-states'
import type { BathEvent } from '#core/plan/event'
import type { Standing } from '../../state/bath-standing.ts'
import type { HoldLive } from '#core/wire/live'

/** The stove, the pots and the night page, in English. */
export const enStove = {
  title: 'Stove',
  empty: 'No pot stands on the stove yet.',
  emptyHelp: 'Add a pot, hang a probe in it, and its bath shows here.',
  addPot: 'Pots and probes',
  connecting: 'Fetching the stove …',
  noProbe: 'No probe hangs in this pot',
  noReading: (age: string) => `No reading for ${age}`,
  neverRead: 'No reading yet',
  last: (temp: string) => `last ${temp}`,
  window: (range: string) => `Window ${range}`,
  ceiling: (temp: string) => `ceiling ${temp}`,
  coolTo: (temp: string) => `Cool to ${temp}`,
  noStage: 'No stage running',
  standing: {
    'in-window': 'in the window',
    below: 'under the window',
    above: 'over the window',
    'over-ceiling': 'over the ceiling',
    cooling: 'cooling',
    'cool-enough': 'cool enough',
    'no-window': '',
  } satisfies Record<Standing, string>,
  steady: 'steady',
  holdOf: (done: string, of: string) => `${done} of ${of} in the window`,
  holdState: {
    waiting: 'The hold has not begun: it counts once the goods are in and the bath is in the window',
    counting: 'The hold is counting',
    paused: 'The hold is paused: the bath is outside its window',
    done: 'The hold is done',
  } satisfies Record<HoldLive['state'], string>,
  holdLost: (parts: string) => `not counted: ${parts}`,
  lostBelow: (t: string) => `${t} under`,
  lostAbove: (t: string) => `${t} over`,
  lostCeiling: (t: string) => `${t} over the ceiling`,
  lostUnknown: (t: string) => `${t} unknown`,
  lostOut: (t: string) => `${t} goods out`,
  next: 'Next',
  nextDone: (at: string, left: string) => `Hold done at ${at} if it stays in (${left})`,
  nextTurn: (left: string) => `Turn the goods in ${left}`,
  turnNow: 'Turn the goods now',
  outBy: (at: string, left: string) => `Goods out by ${at} (${left})`,
  outNow: (at: string) => `Goods were due out at ${at}`,
  reachesWindow: (at: string, left: string) => `Will be in the window at ${at} (in ${left})`,
  leavesWindow: (left: string) => `Leaves the window in about ${left} at this course`,
  reachesCool: (temp: string, at: string) => `At ${temp} by about ${at}`,
  reachesCoolBetween: (temp: string, early: string, late: string) =>
    `At ${temp} between ${early} and ${late} (9 times in 10)`,
  peak: (temp: string) => `Will peak at about ${temp}`,
  dial: (dial: string) => `dial noted at ${dial}`,
  dialOff: 'dial noted off',
  lidOn: 'lid noted on',
  lidOff: 'lid noted off',
  goodsIn: 'goods in',
  goodsOut: 'goods out',
  open: (pot: string) => `${pot}: the whole pot`,
  batchOf: (title: string) => title,
  stageNo: (no: number, of: number, title: string) => `${no} of ${of}: ${title}`,
  noteShort: 'Note',
  noteFor: (pot: string) => `Note what you did at ${pot}`,
  noted: (what: string, at: string) => `Noted ${what} at ${at}`,
  when: 'When?',
  whenNow: 'Just now',
  whenAgo: (minutes: number) => `${minutes} min ago`,
  act: {
    'goods-in': 'Goods in',
    'goods-out': 'Goods out',
    stir: 'Turned / stirred',
    'lid-on': 'Lid on',
    'lid-off': 'Lid off',
    dial: 'Dial …',
    'top-up': 'Topped up',
    'probe-moved': 'Probe moved',
    end: 'End of the batch',
  },
  dialTitle: 'Where does the dial stand now?',
  dialTo: (dial: string) => `Dial to ${dial}`,
  dialOffButton: 'Off',
  dialOffNoted: 'Dial off',
  startStage: (title: string) => `Start: ${title}`,
  startStageTitle: 'Start a stage',
  stageStates: {
    'left-out': 'left out',
    'to-come': 'to come',
    running: 'running',
    done: 'done',
  } satisfies Record<StageState, string>,
  acknowledge: 'I’m there',
  acknowledgeAt: (pot: string) => `I’m there, at ${pot}`,
  andMore: (n: number) => `and ${n} more`,
  andMorePots: (n: number) => (n === 1 ? 'One more pot asks for you.' : `${n} more pots ask for you.`),
  wholeAlarm: 'in full',
  alarmsAt: (pot: string) => `What ${pot} asks for`,
  acknowledgedBy: (who: string, at: string) => `${who} is there since ${at}`,
  someone: 'Someone',
  returned: 'It went back by itself. Still, have a look.',
  shelve: 'Quiet for 5 minutes',
  shelvedNow: 'Quiet for a while',
  since: (at: string) => `since ${at}`,
  urgency: { 'at-once': 'At once', soon: 'Soon', morning: 'In the morning', log: 'Noted' },
  notices: 'What happened',
  noNotices: 'Nothing to tell since this page was opened.',
  startHere: 'Start a batch here',
  endBatch: 'End the batch',
  endBatchSure: 'End the batch now? The record stays, the watch on this pot stops.',
  advice: 'Holdfast advises. It never switches heat and is no safety device: stay near a lit burner.',
  hot: 'Hot liquor scalds in seconds. Lift lids away from you and don’t carry a full hot pot.',
  nightTitle: 'Night',
  nightFine: 'Nothing asks for you.',
  nightCalls: (n: number) => (n === 1 ? 'One pot asks for you.' : `${n} pots ask for you.`),
  awakeOn: 'The screen stays on.',
  awakeOff: 'The screen may go dark: tap here to keep it on.',
  awakeCannot:
    'This browser can’t keep the screen on at this address. Set the device to stay awake and plug it in.',
  hearers: (n: number) =>
    n === 0
      ? 'Nobody would hear an alarm now.'
      : n === 1
        ? 'One device would sound an alarm now.'
        : `${n} devices would sound an alarm now.`,
  testAlarm: 'Test the alarm',
  testAlarmHelp: 'Sounds the real alarm here, and shows who would hear it. Do it once before you sleep.',
  testHeard: 'I heard it',
  testRunning: 'The alarm is sounding. Can you hear it from your bed?',
  testGood: (at: string) => `Test alarm heard at ${at}.`,
  burnerOn: 'A burner is noted on. Don’t sleep while it heats with nobody near it.',
  reading: (pot: string, temp: string, standing: string) =>
    `${pot}: ${temp}${standing === '' ? '' : `, ${standing}`}`,
}

export type ActName = keyof typeof enStove.act

/** The name of what was noted, for the line that confirms it. */
export const eventName = (event: BathEvent, w: typeof enStove): string => {
  switch (event.kind) {
    case 'stage':
      return w.startStage(event.stageId)
    case 'dial':
      return event.dial === 0 ? w.dialOffNoted : w.dialTo(String(event.dial))
    case 'lid':
      return event.lid === 'on' ? w.act['lid-on'] : w.act['lid-off']
    default:
      return w.act[event.kind]
  }
}
