import type { ReactNode } from 'react'
import { loadCatalogue } from './catalogue.ts'
import { MoreMessages } from './messages-provider.tsx'

/** Server component around a screen: `<WordsOf features={['people']}>…`. */
export async function WordsOf({ features, children }: { features: readonly string[]; children: ReactNode }) {
  return <MoreMessages messages={await loadCatalogue('en', features)}>{children}</MoreMessages>
}
