/** Initials of a name, for records: first letters of at most four words. */
export function initialsOf(name: string): string {
  const letters = name
    .split(/[\s-]+/)
    .flatMap((word) => [...word.toUpperCase()].filter((letter) => /[\p{L}\p{N}]/u.test(letter)).slice(0, 1))
  return letters.slice(0, 4).join('') || '?'
}
