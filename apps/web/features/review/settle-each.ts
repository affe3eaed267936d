export type Fate = { readonly key: string; readonly refusal: string | null }

/**
 * Settles one point after another, so that each is recorded by itself; one that is refused stops no other. Says of each
 * what became of it, null standing for settled.
 */
export async function settleEach(
  keys: readonly string[],
  settle: (key: string) => Promise<unknown>,
  onFate: (fate: Fate) => void,
): Promise<readonly Fate[]> {
  const fates: Fate[] = []
  for (const key of keys) {
    const fate = await settle(key).then(
      (): Fate => ({ key, refusal: null }),
      (error: unknown): Fate => ({ key, refusal: error instanceof Error ? error.message : String(error) }),
    )
    fates.push(fate)
    onFate(fate)
  }
  return fates
}
