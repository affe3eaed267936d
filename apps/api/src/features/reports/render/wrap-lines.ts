/**
 * Text in lines no wider than `width`, as `measure` says: broken at spaces, else after a hyphen, slash or comma inside a
 * long word, else within it. Never returns an empty list; a no-break space holds.
 */
export function wrapLines(text: string, width: number, measure: (text: string) => number): string[] {
  return text.split('\n').flatMap((paragraph) => wrapParagraph(paragraph.trim(), width, measure))
}

function wrapParagraph(paragraph: string, width: number, measure: (text: string) => number): string[] {
  if (measure(paragraph) <= width) return [paragraph]
  const lines: string[] = []
  let line = ''
  for (const word of paragraph.split(/ +/)) {
    const longer = line === '' ? word : `${line} ${word}`
    if (measure(longer) <= width) {
      line = longer
      continue
    }
    if (line !== '') lines.push(line)
    const pieces = measure(word) <= width ? [word] : splitWord(word, width, measure)
    lines.push(...pieces.slice(0, -1))
    line = pieces.at(-1)!
  }
  return [...lines, line]
}

function splitWord(word: string, width: number, measure: (text: string) => number): string[] {
  const pieces: string[] = []
  let rest = word
  while (measure(rest) > width) {
    const characters = [...rest]
    let fits = 1
    while (fits < characters.length && measure(characters.slice(0, fits + 1).join('')) <= width) fits += 1
    const soft = characters.slice(0, fits).findLastIndex((character) => '-/,_'.includes(character)) + 1
    const at = soft > fits / 3 ? soft : fits
    pieces.push(characters.slice(0, at).join(''))
    rest = characters.slice(at).join('')
    if (rest === '') return pieces
  }
  return [...pieces, rest]
}
