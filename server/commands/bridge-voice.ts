import { openSync, writeSync } from 'node:fs'

const BELL = '\u0007'

/**
 * Where a bridge speaks: on standard error; once the program that listened there has died, at the terminal that it
 * was started from, where there is one.
 */
export class BridgeVoice {
  #terminal: number | null = null
  #isAlone = false

  constructor() {
    // What nobody reads any more must not end the bridge.
    process.stderr.on('error', () => undefined)
  }

  say(sentence: string): void {
    if (this.#isAlone) this.#write(`bridge: ${sentence}\r\n`)
    else console.error(`bridge: ${sentence}`)
  }

  bell(): void {
    if (this.#isAlone) this.#write(BELL)
    else if (process.stderr.isTTY) process.stderr.write(BELL)
  }

  /** From now on nobody listens on standard error. */
  alone(): void {
    this.#isAlone = true
    try {
      this.#terminal = openSync('/dev/tty', 'w')
    } catch {
      // Started by a service, or the terminal is closed: the lamp has to do.
    }
  }

  #write(text: string): void {
    try {
      if (this.#terminal !== null) writeSync(this.#terminal, text)
    } catch {
      this.#terminal = null
    }
  }
}
