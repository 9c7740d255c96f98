import { useEffect, useRef, useState } from 'preact/hooks'
import type { Lab } from '#core/batch/colour'
import { GREY_CARD, type Patch, photoColour } from '#core/batch/photo-colour'
import { Dialog } from '../part/dialog.tsx'
import { SelectField } from '../part/field.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'
import type { Shade } from './shade.ts'
import { Swatch } from './swatch.tsx'

/** Half the side of the square around a tap, as a share of the picture's width. */
const HALF = 0.015

/** The person taps what is known and then the goods; the light is taken out of the colour. */
export function PhotoPicker(props: {
  readonly fileId: string
  readonly onLab: (lab: Lab) => Promise<void>
  readonly onClose: () => void
}) {
  const { w } = useWords()
  const canvas = useRef<HTMLCanvasElement>(null)
  const [knownId, setKnownId] = useState('')
  const [seen, setSeen] = useState<Patch | null>(null)
  const [goods, setGoods] = useState<Patch | null>(null)
  const { asked } = useAnswer<readonly Shade[]>('/api/shades')
  const shades = asked?.ok === true ? asked.value : []
  const known = shades.find((shade) => String(shade.batchId) === knownId)?.lab ?? GREY_CARD
  const { picker } = w.record
  const again = () => {
    setSeen(null)
    setGoods(null)
    void draw(canvas.current, props.fileId)
  }
  useEffect(again, [props.fileId])

  function tap(e: MouseEvent): void {
    if (canvas.current === null || goods !== null) return
    const patch = patchAt(canvas.current, e)
    if (seen === null) setSeen(patch)
    else setGoods(patch)
  }
  return (
    <Dialog title={picker.title} onClose={props.onClose}>
      <div class="form">
        <SelectField
          label={picker.known}
          value={knownId}
          options={[
            ['', picker.greyCard],
            ...shades.map(({ batchId, title }) => [String(batchId), picker.swatch(title)] as const),
          ]}
          onValue={(id) => {
            setKnownId(id)
            again()
          }}
        />
        <p role="status">{seen === null ? picker.tapKnown : goods === null ? picker.tapGoods : ''}</p>
        <canvas class="picker" ref={canvas} role="img" aria-label={picker.canvas} onClick={tap} />
        {seen !== null && goods !== null && (
          <Found goods={goods} seen={seen} known={known} onLab={props.onLab} />
        )}
        <div class="buttons">
          <button type="button" class="button" onClick={again}>
            {picker.again}
          </button>
        </div>
      </div>
    </Dialog>
  )
}

function Found(props: {
  readonly goods: Patch
  readonly seen: Patch
  readonly known: Lab
  readonly onLab: (lab: Lab) => Promise<void>
}) {
  const { w, f } = useWords()
  const { picker } = w.record
  const found = photoColour(props.goods, [{ seen: props.seen, known: props.known }])
  if (!found.ok) return <p class="problem">{w.shell.failed(w.said(found.why))}</p>
  const lab = {
    lightness: Math.min(100, Math.max(0, round(found.lab.lightness))),
    a: round(found.lab.a),
    b: round(found.lab.b),
  }
  return (
    <div class="swatch-line">
      <Swatch lab={lab} />
      <div>
        <p>{picker.found(f.amount(lab.lightness), f.amount(lab.a), f.amount(lab.b))}</p>
        <p class="row-more">{picker.doubt(f.amount(found.doubt))}</p>
        <button type="button" class="button main" onClick={() => void props.onLab(lab)}>
          {picker.use}
        </button>
      </div>
    </div>
  )
}

const round = (value: number): number => Math.round(value * 10) / 10

async function draw(canvas: HTMLCanvasElement | null, fileId: string): Promise<void> {
  const picture = new Image()
  picture.src = `/api/photos/${fileId}`
  await picture.decode()
  if (canvas === null) return
  canvas.width = picture.naturalWidth
  canvas.height = picture.naturalHeight
  canvas.getContext('2d', { willReadFrequently: true })!.drawImage(picture, 0, 0)
}

/** The pixels of a small square around a tap; the square is drawn, so that the person sees what was taken. */
function patchAt(canvas: HTMLCanvasElement, e: MouseEvent): Patch {
  const scale = canvas.width / canvas.getBoundingClientRect().width
  const half = Math.max(2, Math.round(canvas.width * HALF))
  const x = Math.round(e.offsetX * scale) - half
  const y = Math.round(e.offsetY * scale) - half
  const context = canvas.getContext('2d', { willReadFrequently: true })!
  const { data } = context.getImageData(x, y, 2 * half, 2 * half)
  context.lineWidth = Math.max(2, half / 4)
  context.strokeStyle = '#ffffff'
  context.strokeRect(x, y, 2 * half, 2 * half)
  context.strokeStyle = '#000000'
  context.strokeRect(x - context.lineWidth, y - context.lineWidth, 2 * half + 4, 2 * half + 4)
  return Array.from({ length: data.length / 4 }, (_, i) => [data[4 * i]!, data[4 * i + 1]!, data[4 * i + 2]!])
}
