import type { PrintFor } from './print-for.ts'
import { de } from './words/de.ts'
import { type ReportWords, en } from './words/en.ts'

const CATALOGUES: Readonly<Record<PrintFor['language'], ReportWords>> = { en, de }

export const wordsFor = (language: PrintFor['language']): ReportWords => CATALOGUES[language]
