/**
 * A reason that begins with the words "weighed again", as the bench page stores them or as somebody writes them. Read alike
 * here and by PostgreSQL (`~*`).
 */
export const weighedAgainPattern = '^weighed again([^a-z]|$)'

/**
 * Whether a correction is a weighing of its own, which happened when it was taken. Any other correction puts right what was
 * typed: the act stays when it was.
 */
export function isWeighedAgain(reason: string): boolean {
  return new RegExp(weighedAgainPattern, 'i').test(reason)
}
