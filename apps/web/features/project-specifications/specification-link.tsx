'use client'

import type { NamedVersion } from '@curebook/contract/specifications'
import Link from 'next/link'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

/** One version by name, leading to its limits. */
export function SpecificationLink({ of: { id, name, version } }: { of: NamedVersion }) {
  const words = useWords()
  const lab = useLaboratory()
  return (
    <Link href={`/l/${lab.short}/specifications/${id}`} prefetch={false}>
      {words('projectSpecification.version', { name, version })}
    </Link>
  )
}
