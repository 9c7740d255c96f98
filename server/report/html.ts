/** A piece of HTML that is safe to put into a page: made by `html` only. */
export class Markup {
  readonly text: string
  constructor(text: string) {
    this.text = text
  }
}

type Part = Markup | string | number | null | false | readonly Part[]

const REPLACED: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
  '`': '&#96;',
}

/** Text → text that no browser reads as markup, in an element or a quoted attribute. */
export const escapeHtml = (text: string): string => text.replaceAll(/[&<>"'`]/g, (c) => REPLACED[c]!)

/**
 * HTML from a template: whatever is put in is escaped unless it is Markup itself. `null` and `false` put in
 * nothing, lists put in their parts. Attributes have to be quoted in the template.
 */
export function html(strings: TemplateStringsArray, ...parts: readonly Part[]): Markup {
  return new Markup(strings.reduce((text, string, i) => text + render(parts[i - 1] ?? null) + string))
}

/** Parts side by side. */
export const join = (parts: readonly Part[]): Markup => new Markup(render(parts))

function render(part: Part): string {
  if (part === null || part === false) return ''
  if (part instanceof Markup) return part.text
  if (typeof part === 'string') return escapeHtml(part)
  if (typeof part === 'number') return String(part)
  return part.map(render).join('')
}
