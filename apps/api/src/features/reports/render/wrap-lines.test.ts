import { describe, expect, test } from 'vitest'
import { visibleText } from './visible-text.ts'
import { wrapLines } from './wrap-lines.ts'

const byLength = (text: string) => text.length

describe('breaking text into lines', () => {
  test.each([
    ['at spaces', 'one two three', 7, ['one two', 'three']],
    ['after a hyphen of a long word', 'sand-adhesion', 8, ['sand-', 'adhesion']],
    ['within a word when it must', 'abcdefghij', 4, ['abcd', 'efgh', 'ij']],
    ['never at a no-break space', 'at 538\u00a0g/m²', 9, ['at', '538\u00a0g/m²']],
    ['at line breaks', 'a\nb', 9, ['a', 'b']],
    ['nothing is one empty line', '', 9, ['']],
    ['a width that holds nothing still gives one character a line', 'ab', 0, ['a', 'b']],
  ])('%s', (_, text, width, lines) => {
    expect(wrapLines(text, width, byLength)).toEqual(lines)
  })
})

describe('text that can be seen', () => {
  const latin = (codePoint: number) => codePoint < 0x250
  test.each([
    ['plain text stays', 'Disc 10-1', 'Disc 10-1'],
    ['composed and decomposed letters are one', 'e\u0301', 'é'],
    ['a tab is a space, a carriage return a line break', 'a\tb\r\nc', 'a b\nc'],
    ['a direction mark is named', 'a\u202eb', 'a[U+202E]b'],
    ['a sign that the font lacks is named', '😀', '[U+1F600]'],
    ['half a surrogate pair is named', '\ud83d', '[U+D83D]'],
  ])('%s', (_, text, shown) => {
    expect(visibleText(text, latin)).toBe(shown)
  })
})
