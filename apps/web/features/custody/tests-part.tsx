'use client'

import type { Item } from '@curebook/contract/custody'
import Link from 'next/link'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

/** The tests on the item itself, each on its page at the bench. */
export function TestsPart({ item }: { item: Item }) {
  const words = useWords()
  const lab = useLaboratory()
  if (item.tests.length === 0) return null
  return (
    <section className="stack" aria-labelledby="tests">
      <h2 id="tests">{words('custody.tests')}</h2>
      <ul>
        {item.tests.map(({ id, methodName, label }) => (
          <li key={id}>
            <Link href={`/l/${lab.short}/bench/tests/${id}`} prefetch={false}>
              {label === '' ? methodName : `${label}, ${methodName}`}
            </Link>
          </li>
        ))}
      </ul>
    </section>
  )
}
