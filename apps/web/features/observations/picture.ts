'use client'

/** Long side of a picture that had to be made anew: lettering on a felt stays readable. Common practice, no source. */
const longestSide = 2400
/** What is no larger goes as it is. Larger ones wait long for a network in a lane of their own. Our own choice, no source. */
const smallBytes = 1_000_000
/** As the server takes it. */
const keptAsTaken: readonly string[] = ['image/jpeg', 'image/png']

/**
 * A photograph as the server takes it: as the camera made it where that is small, else drawn anew as a JPEG. One that got no
 * smaller by that goes as it was, where it fits.
 * @throws Error when the browser cannot read the picture
 */
export async function pictureToSend(file: File, mostBytes: number): Promise<File> {
  const isTaken = keptAsTaken.includes(file.type)
  if (isTaken && file.size <= Math.min(smallBytes, mostBytes)) return file
  const picture = await createImageBitmap(file)
  const scale = Math.min(1, longestSide / Math.max(picture.width, picture.height))
  const canvas = document.createElement('canvas')
  canvas.width = Math.round(picture.width * scale)
  canvas.height = Math.round(picture.height * scale)
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height)
  picture.close()
  const drawn = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', 0.85))
  if (drawn === null) throw new Error('The picture could not be drawn.')
  if (isTaken && file.size <= Math.min(drawn.size, mostBytes)) return file
  return new File([drawn], file.name.replace(/\.\w+$/, '') + '.jpg', { type: 'image/jpeg' })
}
