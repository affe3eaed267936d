/** What a schema says without words of its own ("Invalid UUID", "Too small: …"), told as the sentence of its field. */
export function inFieldSentences(
  errors: Readonly<Record<string, string>>,
  sentences: Readonly<Record<string, string>>,
): Readonly<Record<string, string>> {
  return Object.fromEntries(
    Object.entries(errors).map(([path, message]) => [
      path,
      /^(Invalid|Too small|Too big|Expected)/.test(message) ? (sentences[path] ?? message) : message,
    ]),
  )
}

/** What is left of a schema's own words where a field has none: which sentence of the catalogue says it, with its number. */
export function ownWordsOf(message: string): { readonly key: string; readonly count?: number } | undefined {
  const longest = /^Too big: expected string to have <=(\d+) characters$/.exec(message)
  if (longest !== null) return { key: 'tooLong', count: Number(longest[1]) }
  const most = /^Too big: expected number to be <=(\d+)$/.exec(message)
  if (most !== null) return { key: 'atMost', count: Number(most[1]) }
  const least = /^Too small: expected number to be >=(-?\d+)$/.exec(message)
  if (least !== null) return { key: 'atLeast', count: Number(least[1]) }
  if (/^Invalid (ISO date|input: expected (int|number))/.test(message))
    return { key: message.startsWith('Invalid ISO') ? 'needDay' : 'needWhole' }
  if (/^Invalid (UUID|option)/.test(message)) return { key: 'needChoice' }
  if (/^(Too small: expected string|Invalid input: expected string)/.test(message)) return { key: 'needText' }
  return undefined
}
