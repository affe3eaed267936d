/**
 * Text as it can be printed: a character that the fonts lack, or that would not be seen (controls, direction marks), is
 * named by its number as `[U+202E]`; it is never dropped and never an empty box. Line breaks stay.
 */
export function visibleText(text: string, hasGlyph: (codePoint: number) => boolean): string {
  let shown = ''
  for (const character of text.normalize('NFC').replace(/\r\n?/g, '\n').replaceAll('\t', ' ')) {
    const codePoint = character.codePointAt(0)!
    const fine = character === '\n' || (!/[\p{C}\p{Zl}\p{Zp}]/u.test(character) && hasGlyph(codePoint))
    shown += fine ? character : `[U+${codePoint.toString(16).toUpperCase().padStart(4, '0')}]`
  }
  return shown
}
