import { Markup } from './html.ts'

/** Black on white, in the reader's own sans serif; nothing is told by colour alone. */
const CSS = `
@page { size: A4; margin: 14mm; }
* { box-sizing: border-box; }
body { font: 10pt/1.35 system-ui, sans-serif; color: #000; background: #fff; margin: 0 auto; max-width: 182mm; padding: 4mm 0; }
header { display: flex; justify-content: space-between; align-items: flex-end; gap: 8mm; border-bottom: 1.5pt solid #000; padding-bottom: 2mm; margin-bottom: 4mm; }
header p { margin: 0; text-align: right; }
h1 { font-size: 16pt; line-height: 1.15; margin: 0; overflow-wrap: anywhere; }
h2 { font-size: 11.5pt; margin: 5mm 0 1.5mm; break-after: avoid; }
h3 { font-size: 10pt; margin: 3mm 0 1mm; break-after: avoid; }
p, ul, ol { margin: 0 0 1.5mm; }
ul, ol { padding-left: 5mm; }
section { break-inside: auto; }
dl { display: grid; grid-template-columns: repeat(2, max-content minmax(0, 1fr)); gap: .6mm 4mm; margin: 0; }
dt { font-weight: 600; }
dd { margin: 0; overflow-wrap: anywhere; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: .7mm 2mm .7mm 0; border-bottom: .4pt solid #888; overflow-wrap: break-word; }
th { border-bottom: .8pt solid #000; font-weight: 600; }
td.number, th.number { text-align: right; font-variant-numeric: tabular-nums; }
tr, figure, .keep { break-inside: avoid; }
figure { margin: 1mm 0 2mm; }
svg { display: block; width: 100%; height: auto; }
.small { font-size: 8.5pt; }
.off { font-weight: 700; }
.off::before { content: "! "; }
.photos { display: grid; grid-template-columns: repeat(3, minmax(0, 1fr)); gap: 2mm 4mm; align-items: start; }
.photos figure, .photo figure { margin: 0; }
.photo { margin-top: 3mm; }
.photos img, .photo img { display: block; width: 100%; max-height: 55mm; object-fit: contain; object-position: left top; border: .4pt solid #000; }
.swatch { border: .8pt dashed #000; min-height: 32mm; display: flex; align-items: center; justify-content: center; text-align: center; padding: 2mm; }
.colour { display: inline-block; width: 8mm; height: 4mm; border: .5pt solid #000; vertical-align: middle; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.sign { display: flex; gap: 10mm; margin-top: 8mm; break-inside: avoid; }
.sign span { flex: 1; border-top: .8pt solid #000; padding-top: 1mm; }
.two { display: grid; grid-template-columns: 1fr 45mm; gap: 5mm; }
footer { margin-top: 5mm; border-top: .4pt solid #888; padding-top: 1.5mm; font-size: 8.5pt; }
body.class { font-size: 9pt; padding: 0; }
body.class main ul, body.class main ol { columns: 2; column-gap: 8mm; }
body.class li { break-inside: avoid; }
body.class h2 { margin-top: 3mm; }
body.class .photo img { max-height: 30mm; }
body.class figure svg { max-height: 50mm; }
body.tag { max-width: none; width: 90mm; padding: 0; font-size: 8pt; }
body.tag main { width: 90mm; min-height: 55mm; border: .8pt solid #000; padding: 3mm; display: grid; grid-template-columns: 1fr 24mm; gap: 2mm 3mm; break-inside: avoid; }
body.tag h1 { font-size: 11pt; }
body.tag .qr svg { width: 24mm; height: 24mm; }
body.tag p { margin-bottom: .8mm; }
@media screen { body { padding: 6mm; } }
`

export const PRINT_STYLE = new Markup(`<style>${CSS}</style>`)
