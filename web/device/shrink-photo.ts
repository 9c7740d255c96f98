/** As long as this along its longer side, pixels: enough for a swatch, small enough for the record. */
const LONGEST = 1800

/** A picture from a camera, upright and small enough to keep; throws when it is no picture. */
export async function shrinkPhoto(file: Blob): Promise<Blob> {
  const picture = await createImageBitmap(file)
  const scale = Math.min(1, LONGEST / Math.max(picture.width, picture.height))
  const canvas = document.createElement('canvas')
  canvas.width = Math.max(1, Math.round(picture.width * scale))
  canvas.height = Math.max(1, Math.round(picture.height * scale))
  canvas.getContext('2d')!.drawImage(picture, 0, 0, canvas.width, canvas.height)
  picture.close()
  // Colours are read from it later: little is lost at this quality.
  const made = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', 0.92))
  if (made === null) throw new Error('the browser could not keep the picture')
  return made
}
