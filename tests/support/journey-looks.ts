import type { Locator, Page } from 'playwright-core'

export type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number }

/** Where it stands on the screen, in CSS pixels; throws while it is not drawn. */
export async function boxOf(found: Locator): Promise<Box> {
  const box = await found.boundingBox()
  if (box === null) throw new Error(`${found} is not drawn`)
  return box
}

/** What is empty between two boxes, side by side or one above the other; negative where they overlap. */
export function gapBetween(one: Box, other: Box): number {
  const across = Math.max(one.x, other.x) - Math.min(one.x + one.width, other.x + other.width)
  const down = Math.max(one.y, other.y) - Math.min(one.y + one.height, other.y + other.height)
  return Math.max(across, down)
}

/** Whether all of it is on the screen as the page stands. */
export async function isWhollySeen(page: Page, found: Locator): Promise<boolean> {
  const { x, y, width, height } = await boxOf(found)
  const screen = page.viewportSize()!
  return x >= 0 && y >= 0 && x + width <= screen.width && y + height <= screen.height
}

/** A property as the browser has computed it. */
export function styleOf(found: Locator, property: string): Promise<string> {
  return found.evaluate(
    inPage<string>('element, name', 'return getComputedStyle(element).getPropertyValue(name)'),
    property,
  )
}

export async function pixelsOf(found: Locator, property: string): Promise<number> {
  return Number.parseFloat(await styleOf(found, property))
}

/** The size of type, in px, of every text that shows inside: what it says, and how large. */
export function textsOf(found: Locator): Promise<{ text: string; size: number }[]> {
  return found.evaluate(inPage<{ text: string; size: number }[]>('root', texts), null)
}

/** Whether two signs look different, and how wide each digit is, in the type of an element. */
export function typeOf(found: Locator): Promise<{ alike: string[]; widths: number[] }> {
  return found.evaluate(inPage<{ alike: string[]; widths: number[] }>('element', type), null)
}

/** What runs in the page, whose types are not those of this process. */
function inPage<Result>(names: string, body: string) {
  return new Function(names, body) as (element: unknown, argument: unknown) => Result
}
const texts = `
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT)
  const found = []
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const text = node.textContent.trim()
    const { parentElement } = node
    const box = parentElement.getBoundingClientRect()
    if (text === '' || box.width <= 1 || box.height <= 1 || !parentElement.checkVisibility()) continue
    found.push({ text, size: parseFloat(getComputedStyle(parentElement).fontSize) })
  }
  return found`
const type = `
  const { fontFamily, fontWeight } = getComputedStyle(element)
  const canvas = document.createElement('canvas')
  const pen = canvas.getContext('2d', { willReadFrequently: true })
  const drawn = (sign) => {
    pen.clearRect(0, 0, canvas.width, canvas.height)
    pen.font = fontWeight + ' 64px ' + fontFamily
    pen.fillText(sign, 20, 90)
    return pen.getImageData(0, 0, canvas.width, canvas.height).data.join()
  }
  return {
    alike: ['0O', '1l', '1I'].filter(([one, other]) => drawn(one) === drawn(other)),
    widths: [...'0123456789'].map((digit) => pen.measureText(digit).width),
  }`
