import type { ReactNode } from 'react'
import { LaboratoryEntrance } from '#features/shell/laboratory-entrance.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function LaboratoryLayout({
  params,
  children,
}: {
  params: Promise<{ short: string }>
  children: ReactNode
}) {
  const { short } = await params
  return (
    <WordsOf features={['shell', 'device', 'search', 'notices']}>
      <LaboratoryEntrance short={short}>{children}</LaboratoryEntrance>
    </WordsOf>
  )
}
