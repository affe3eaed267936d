'use client'

import Link from 'next/link'
import type { ReactNode } from 'react'
import { useLaboratory } from '#lib/laboratory-provider.tsx'

/** To where something that a form asks for is entered. */
export function MakeLink({ href, children }: { href: string; children: ReactNode }) {
  const lab = useLaboratory()
  return (
    <Link href={`/l/${lab.short}/${href}`} prefetch={false}>
      {children}
    </Link>
  )
}
