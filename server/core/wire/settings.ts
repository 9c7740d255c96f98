import { z } from 'zod'
import { hasWords } from '../words/words-of.ts'
import { checkAlarms } from '../plan/check-alarms.ts'
import { brokerSettings } from './bridge-link.ts'
import { explainIssue } from './explain-issue.ts'
import { knownFields } from './known-fields.ts'
import { languageField, unitField, zoneField } from './person-fields.ts'
import { planFileSchema } from './plan-schema.ts'
import { decodeProbes, type ProbeSettings } from './probe-settings.ts'
import { clockOfDay, liftTemp } from './wake-fields.ts'
import { escalationSettings, lampSettings, pushSettings, webhookSettings } from './tell-settings.ts'
import { visibleLine } from './visible-line.ts'

/** A name by which browsers may call the server: letters, digits, hyphens and dots, no port. */
const hostName = z.string().regex(/^[a-z0-9]([a-z0-9.-]{0,251}[a-z0-9])?$/i, 'a host name without a port')

/** What `holdfast.json` may hold. Probes are read one by one by `decodeProbes`. */
export const settingsFile = z.strictObject({
  port: z.number().int().min(0).max(65_535).default(4715).describe('TCP port; 0 takes a free one'),
  host: z.string().min(1).max(255).default('127.0.0.1').describe('address to listen on'),
  log: z.enum(['debug', 'info', 'warn', 'error', 'silent']).default('info'),
  hosts: z.array(hostName).max(20).default([]).describe('further names of this computer in addresses'),
  key: z.string().min(16).max(256).optional().describe('bridges and devices elsewhere show this'),
  passphrase: z.string().min(12).max(256).optional().describe('people log in with this'),
  studio: visibleLine(80).optional().describe('the name that the page shows'),
  unit: unitField.default('C').describe('of the sentences that go to lamps, phones and the log'),
  zone: zoneField.optional(),
  language: languageField
    .refine(hasWords, 'allowed are en and de, also with a region, such as de-AT')
    .default('en'),
  altitudeM: z.number().min(-500).max(6000).default(0).describe('metres above the sea: the boiling point'),
  wakeAt: clockOfDay.optional().describe('when the alarm clock rings; the night page may say otherwise'),
  liftC: liftTemp.default(40).describe('how cool a bath must be for goods to be lifted, °C'),
  energyPricePerKWh: z
    .number()
    .min(0)
    .max(1000)
    .optional()
    .describe('what a kilowatt-hour costs: batches then show what their heat cost'),
  money: z
    .string()
    .trim()
    .min(1)
    .max(8)
    .optional()
    .describe('what prices are in: a code as in ISO 4217, or a sign'),
  alarms: planFileSchema.shape.alarms.describe('delays and deadbands for all pots; a plan may say otherwise'),
  probes: z.array(z.unknown()).max(1000).default([]),
  broker: brokerSettings.optional(),
  lamp: lampSettings.optional(),
  webhook: webhookSettings.optional(),
  push: pushSettings.optional(),
  escalation: escalationSettings.optional(),
})

export type FileSettings = z.output<typeof settingsFile>

/** Settings with every default filled in. */
export interface Settings extends Omit<FileSettings, 'probes'> {
  readonly probes: readonly ProbeSettings[]
}

export type DecodedSettings =
  | { readonly ok: true; readonly settings: Settings }
  | { readonly ok: false; readonly why: string }

/** One layer of settings: the later one wins, field by field. `where` names it in a sentence. */
export interface SettingsLayer {
  readonly where: string
  /** A variable or a flag sets one field and is named in its place. */
  readonly field?: string
  readonly values: Readonly<Record<string, unknown>>
}

/** Checks each layer by itself, so that the sentence names the place a person must go to; then lays them over each other. */
export function decodeSettings(layers: readonly SettingsLayer[]): DecodedSettings {
  for (const layer of layers) {
    const why = layerProblem(layer)
    if (why !== null) return { ok: false, why }
  }
  const parsed = settingsFile.safeParse(Object.assign({}, ...layers.map((layer) => layer.values)))
  if (!parsed.success) return { ok: false, why: explain(parsed.error, {}) }
  const probes = decodeProbes(parsed.data.probes)
  if (!probes.ok) return { ok: false, why: `holdfast.json: ${probes.why}` }
  return { ok: true, settings: { ...parsed.data, probes: probes.probes } }
}

function layerProblem({ where, field, values }: SettingsLayer): string | null {
  const parsed = settingsFile.partial().safeParse(values)
  if (parsed.success) {
    const [fault] = checkAlarms(parsed.data.alarms)
    return fault === undefined ? null : `${where}: ${fault}`
  }
  const sentence = explain(parsed.error, values)
  return field === undefined ? `${where}: ${sentence}` : where + sentence.slice(field.length)
}

const explain = (error: z.ZodError, values: unknown): string =>
  explainIssue(error.issues[0]!, values, (path) => knownFields(settingsFile, path))
