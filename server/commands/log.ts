import { type Logger, pino } from 'pino'

/** Fields that never reach the log. */
const SECRET = ['key', 'passphrase', 'password', '*.key', '*.passphrase', '*.password', '*.secret']

/**
 * The log on standard error: one JSON object a line, or plain lines when a person sits there. JSON escapes
 * whatever a probe or a stranger put into a name; the plain lines do so too.
 */
export function makeLog(level: string): Logger {
  const options = { level, redact: SECRET, base: null }
  if (!process.stderr.isTTY)
    return pino({ ...options, timestamp: pino.stdTimeFunctions.isoTime }, pino.destination(2))
  return pino(options, { write: (line: string) => void process.stderr.write(plainLine(line)) })
}

const NAMES: Readonly<Record<number, string>> = {
  20: 'debug',
  30: 'info',
  40: 'warn',
  50: 'error',
  60: 'fatal',
}

/** `08:00:00 warn  the bridge "pi" is lost` */
function plainLine(line: string): string {
  const { level, time, msg, err } = JSON.parse(line) as {
    level: number
    time: number
    msg?: string
    err?: { message?: string }
  }
  const clock = new Date(time).toTimeString().slice(0, 8)
  const cause = err?.message === undefined ? '' : ` (${err.message})`
  return `${clock} ${(NAMES[level] ?? 'info').padEnd(5)} ${escaped(`${msg ?? ''}${cause}`)}\n`
}

/** A name must not move the cursor or colour the screen. */
const escaped = (text: string): string =>
  text.replaceAll(/\p{Cc}/gu, (c) => `\\x${c.codePointAt(0)!.toString(16).padStart(2, '0')}`)
