import { parse, type MessageFormatElement } from '@formatjs/icu-messageformat-parser'

/** A plain sentence as it stands; one with parts to fill in, parsed. */
export type Message = string | MessageFormatElement[]
export type Catalogue = Readonly<Record<string, Message>>

/**
 * The words of some features in one language. Server side only: a page hands them to the browser with its own content, so
 * no screen pays for the words of another.
 */
export async function loadCatalogue(locale: string, features: readonly string[]): Promise<Catalogue> {
  const parts = await Promise.all(
    features.map(
      async (feature) =>
        ((await import(`../messages/${locale}/${feature}.json`)) as { default: Record<string, string> }).default,
    ),
  )
  return Object.fromEntries(parts.flatMap((part) => Object.entries(part).map(([key, text]) => [key, compile(text)])))
}

/** Apostrophes of prose are typographic in the catalogues, so a straight one is ICU's quote. */
function compile(text: string): Message {
  return /[{}']/.test(text) ? parse(text) : text
}
