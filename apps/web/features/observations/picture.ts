'use client'

/** Long side of a picture that had to be made anew: lettering on a felt stays readable. Common practice, no source. */
const longestSide = 2400
/** As the server takes it. */
const keptAsTaken: readonly string[] = ['image/jpeg', 'image/png']

/**
 * A photograph as the server takes it: as the camera made it where that fits, else drawn anew as a JPEG.
 * @throws Error when the browser cannot read the picture
 */
export async function pictureToSend(file: File, mostBytes: number): Promise<File> {
  if (keptAsTaken.includes(file.type) && file.size <= mostBytes) return file
  const picture = await createImageBitmap(file)
  const scale = Math.min(1, longestSide / Math.max(picture.width, picture.height))
  const canvas = document.createElement('canvas')
  canvas.width = Math.round(picture.width * scale)
  canvas.height = Math.round(picture.height * scale)
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height)
  picture.close()
  const drawn = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', 0.85))
  if (drawn === null) throw new Error('The picture could not be drawn.')
  return new File([drawn], file.name.replace(/\.\w+$/, '') + '.jpg', { type: 'image/jpeg' })
}
