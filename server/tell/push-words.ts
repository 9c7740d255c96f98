import type { AlarmMessage, NoticeMessage } from '#core/wire/live'
import type { PushMessage } from './push-letter.ts'

/** What a phone shows of an alarm. The sentence begins with the pot's name, so the title says how urgent it is. */
export const alarmPush = (message: AlarmMessage): PushMessage => ({
  kind: 'alarm',
  tag: `alarm-${message.alarmId}`,
  title: message.urgency === 'at-once' ? 'Come now' : 'Soon',
  body: message.text,
  path: `/#/pots/${encodeURIComponent(message.pot)}`,
  isUrgent: message.urgency === 'at-once',
  id: message.id,
})

/** Takes the place of an alarm that was pushed: it is answered or over. */
export const hushPush = (message: AlarmMessage): PushMessage => ({
  ...alarmPush(message),
  kind: 'hush',
  title: hushTitle(message),
  isUrgent: false,
})

function hushTitle({ state, acknowledgedBy }: AlarmMessage): string {
  if (state === 'acknowledged')
    return acknowledgedBy === null ? 'Somebody is there' : `${acknowledgedBy} is there`
  return state === 'shelved' ? 'Put aside for a while' : 'Over'
}

export const noticePush = (message: NoticeMessage): PushMessage => ({
  kind: 'notice',
  tag: `notice-${message.pot}-${message.notice}`,
  title: 'Notice',
  body: message.text,
  path: `/#/pots/${encodeURIComponent(message.pot)}`,
  isUrgent: false,
  id: message.id,
})

export const testPush = (testId: number): PushMessage => ({
  kind: 'test',
  tag: 'test',
  title: 'Test alarm',
  body: 'Tap here to say that you heard it.',
  path: `/?heardTest=${testId}`,
  isUrgent: true,
  id: null,
})
