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
