import { existsSync } from 'node:fs'

/** Where a Chromium usually lies on Debian and its kin, and on macOS. */
const USUAL = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/snap/bin/chromium',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
]

/** The path of a Chromium that is there, or `null`. */
export const findChromium = (): string | null => USUAL.find((path) => existsSync(path)) ?? null
