import QRCode from 'qrcode'
import { type Markup, html } from './html.ts'

/**
 * A QR code as an inline picture, one square a module, with the four quiet modules around it that ISO/IEC 18004
 * asks for. Error correction M: a tag gets wet and creased.
 */
export function qrPicture(text: string): Markup {
  const { modules } = QRCode.create(text, { errorCorrectionLevel: 'M' })
  const dark = Array.from(modules.data, (on, i) => (on === 0 ? '' : square(i, modules.size)))
  const side = modules.size + 2 * QUIET
  return html`<svg viewBox="0 0 ${side} ${side}" role="img" aria-label="${text}" shape-rendering="crispEdges">
    <rect width="${side}" height="${side}" fill="#fff" />
    <path d="${dark.join('')}" fill="#000" />
  </svg>`
}

const QUIET = 4

const square = (index: number, size: number): string =>
  `M${(index % size) + QUIET} ${Math.floor(index / size) + QUIET}h1v1h-1z`
