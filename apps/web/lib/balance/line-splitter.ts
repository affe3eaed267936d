/** No balance writes a line this long; what is longer is noise, as of a wrong speed. Our own choice, no source. */
const longest = 200

/**
 * Cuts what arrives in pieces into lines: CR, LF or both end one, wherever the pieces part. Empty lines are none; a line that
 * does not end is dropped when it gets too long, up to its end.
 */
export function createLineSplitter(onLine: (line: string) => void): (piece: string) => void {
  let begun = ''
  let tooLong = false
  return (piece) => {
    for (const character of piece) {
      if (character === '\r' || character === '\n') {
        if (!tooLong && begun.trim() !== '') onLine(begun)
        begun = ''
        tooLong = false
      } else if (begun.length >= longest) tooLong = true
      else begun += character
    }
  }
}

/** The lines of a port, until it is closed; throws when it is lost. */
export async function readLines(
  port: { readonly pieces: () => AsyncIterable<string> },
  onLine: (line: string) => void,
): Promise<void> {
  const split = createLineSplitter(onLine)
  for await (const piece of port.pieces()) split(piece)
}
