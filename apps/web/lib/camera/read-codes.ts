/** So long between two looks at the picture: quick for a hand, light for a tablet. Our own choice, no source. */
export const lookEveryMs = 120

/**
 * Looks at the picture until a code was taken, or the camera is put away. A code that was not known is told once, and again
 * when it was out of the picture in between; a picture in which nothing can be read is looked at again.
 */
export async function readCodes({
  look,
  take,
  wait,
  signal,
}: {
  /** The codes in the picture now. */
  readonly look: () => Promise<readonly string[]>
  /** @returns whether it was a known one */
  readonly take: (code: string) => Promise<boolean>
  readonly wait: (ms: number) => Promise<void>
  readonly signal: AbortSignal
}): Promise<void> {
  let told: readonly string[] = []
  while (!signal.aborted) {
    // The first pictures of a camera cannot be read yet: nothing is seen in them.
    const seen = await look().catch(() => [])
    for (const code of seen.map((text) => text.trim()).filter(Boolean)) {
      if (signal.aborted) return
      if (told.includes(code)) continue
      told = [...told, code]
      if (await take(code)) return
    }
    told = told.filter((code) => seen.some((text) => text.trim() === code))
    await wait(lookEveryMs)
  }
}
