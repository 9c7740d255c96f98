import { readFileSync } from 'node:fs'
import type { Vessel } from '#core/bath/vessel'
import type { Plan } from '#core/plan/plan'
import { decodePlan } from '#core/wire/plan-file'
import { decodeVessel } from '#core/wire/vessel-file'
import { UsageError } from './command.ts'

/** The text of a file that a person named; what stands in the way is theirs to mend. */
export function readText(path: string): string {
  try {
    // Some editors put a byte order mark first; RFC 8259 §8.1 lets a reader pass over it.
    return readFileSync(path, 'utf8').replace(/^\uFEFF/, '')
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown'
    const why = code === 'ENOENT' ? 'does not exist' : `cannot be read (${code})`
    throw new UsageError(`the file ${path} ${why}; it must be a file that can be read`, { cause: error })
  }
}

function readJson(path: string): unknown {
  const text = readText(path)
  try {
    return JSON.parse(text)
  } catch (error) {
    throw new UsageError(`the file ${path} is not JSON: ${error instanceof Error ? error.message : ''}`, {
      cause: error,
    })
  }
}

export function readPlan(path: string): Plan {
  const decoded = decodePlan(readJson(path))
  if (!decoded.ok) throw new UsageError(`plan ${path}: ${decoded.why}`)
  return decoded.plan
}

export function readVessel(path: string): Vessel {
  const decoded = decodeVessel(readJson(path))
  if (!decoded.ok) throw new UsageError(`vessel ${path}: ${decoded.why}`)
  return decoded.vessel
}
