import type { Metadata } from 'next'
import { WallScreen } from '#features/wall/wall-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export const metadata: Metadata = { robots: { index: false, follow: false } }

export default function WallPage() {
  return (
    <WordsOf features={['shell', 'wall']}>
      <WallScreen />
    </WordsOf>
  )
}
