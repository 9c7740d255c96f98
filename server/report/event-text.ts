import type { BathEvent } from '#core/plan/event'
import type { Writing } from './sheet-parts.ts'

/** What a person noted, in their language: `dial 3.5`, `lid off`. */
export function eventText(event: BathEvent, { f, words }: Writing): string {
  switch (event.kind) {
    case 'dial':
      return `${words.eventWords.dial} ${f.number(event.dial)}`
    case 'lid':
      return event.lid === 'on' ? words.lidOn : words.lidOff
    default:
      return words.eventWords[event.kind]
  }
}
