import { type Markup, html } from './html.ts'
import { PRINT_STYLE } from './print-style.ts'
import type { PrintFor } from './print-for.ts'

/**
 * A whole page that prints by itself: no script, no font, no picture from elsewhere. The policy in its head keeps
 * it so, should anything slip through. `paper`: `a4`; `class`, an A4 on which more finds
 * room; or `tag` (90 × 55 mm).
 */
export function page(
  title: string,
  reader: PrintFor,
  body: Markup,
  paper: 'a4' | 'class' | 'tag' = 'a4',
): string {
  const policy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
  return `<!doctype html>\n${
    html`<html lang="${reader.language}">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content="${policy}" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>${title}</title>
        ${PRINT_STYLE}
      </head>
      <body class="${paper}">
        ${body}
      </body>
    </html>`.text
  }\n`
}
