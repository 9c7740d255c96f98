import { execFile } from 'node:child_process'
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { promisify } from 'node:util'

const run = promisify(execFile)

export type PrintedPdf =
  | { readonly ok: true; readonly pdf: Buffer }
  | { readonly ok: false; readonly why: string }

/** A page prints in about a second; after this it is taken to hang. */
const PATIENCE_MS = 30_000

/**
 * Prints a self-contained page to PDF by a Chromium that is there already. The page needs no network and gets
 * none: a script or a picture from elsewhere would not run. `chromiumPath`: the program, or `null` when there is none.
 */
export async function printPdf(html: string, chromiumPath: string | null): Promise<PrintedPdf> {
  if (chromiumPath === null)
    return {
      ok: false,
      why: 'no Chromium was found to print with; open the page and print it from the browser',
    }
  const folder = await mkdtemp(join(tmpdir(), 'holdfast-print-'))
  try {
    const source = join(folder, 'page.html')
    const target = join(folder, 'page.pdf')
    await writeFile(source, html)
    await run(chromiumPath, flags(folder, source, target), { timeout: PATIENCE_MS, killSignal: 'SIGKILL' })
    return { ok: true, pdf: await readFile(target) }
  } catch (error) {
    const reason = error instanceof Error ? error.message.split('\n')[0] : String(error)
    return { ok: false, why: `printing to PDF failed: ${reason}` }
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 })
  }
}

const flags = (folder: string, source: string, target: string): string[] => [
  '--headless',
  '--disable-gpu',
  '--disable-dev-shm-usage',
  '--no-first-run',
  // Chromium's own sandbox doesn't start for root; the page has no script and no network.
  ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
  '--host-resolver-rules=MAP * ~NOTFOUND',
  `--user-data-dir=${join(folder, 'profile')}`,
  '--no-pdf-header-footer',
  `--print-to-pdf=${target}`,
  pathToFileURL(source).href,
]
