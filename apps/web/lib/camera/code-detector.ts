/** The codes in a picture of the camera. */
export type CodeDetector = (picture: HTMLVideoElement) => Promise<readonly string[]>

/** Squares as on our labels, and the lines of bought ones. */
const wanted = ['qr_code', 'code_128']

/** What of the browser's own detector is used here; the types of the browser do not know it yet. */
type NativeDetector = {
  new (options: { readonly formats: readonly string[] }): {
    readonly detect: (picture: HTMLVideoElement) => Promise<readonly { readonly rawValue: string }[]>
  }
  readonly getSupportedFormats: () => Promise<readonly string[]>
}

/** The browser's own detector where it knows squares; else one of ours, for squares alone, fetched when it is needed. */
export async function chooseDetector(browser: object, own: () => Promise<CodeDetector>): Promise<CodeDetector> {
  const native = 'BarcodeDetector' in browser ? (browser.BarcodeDetector as NativeDetector) : undefined
  const known = (await native?.getSupportedFormats().catch(() => [])) ?? []
  const formats = wanted.filter((format) => known.includes(format))
  if (native === undefined || !formats.includes('qr_code')) return own()
  const detector = new native({ formats })
  return async (picture) => (await detector.detect(picture)).map(({ rawValue }) => rawValue)
}

/** Reads squares in plain script, without WebAssembly, which the page's policy does not allow. */
export async function squareDetector(): Promise<CodeDetector> {
  const read = await squareReader()
  const canvas = document.createElement('canvas')
  const drawn = canvas.getContext('2d', { willReadFrequently: true })
  return async (picture) => {
    const { videoWidth: width, videoHeight: height } = picture
    if (drawn === null || width === 0) return []
    canvas.width = width
    canvas.height = height
    drawn.drawImage(picture, 0, 0)
    return read(drawn.getImageData(0, 0, width, height))
  }
}

/** What stands in the square of a picture; labels are dark on light, so it is not looked for the other way round. */
export async function squareReader(): Promise<(picture: Pick<ImageData, 'data' | 'width' | 'height'>) => string[]> {
  const { default: readSquare } = await import('jsqr')
  return ({ data, width, height }) => {
    const found = readSquare(data, width, height, { inversionAttempts: 'dontInvert' })
    return found === null ? [] : [found.data]
  }
}
