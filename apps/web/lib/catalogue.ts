import type { Catalogue } from './messages-provider.tsx'

/**
 * The words of some features in one language. Server side only: a page hands them to the browser with its own content, so
 * no screen pays for the words of another.
 */
export async function loadCatalogue(locale: string, features: readonly string[]): Promise<Catalogue> {
  const parts = await Promise.all(
    features.map(async (feature) => ((await import(`../messages/${locale}/${feature}.json`)) as { default: Catalogue }).default),
  )
  return Object.assign({}, ...parts) as Catalogue
}
