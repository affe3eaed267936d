'use client'

import type { Ancestor, Item } from '@curebook/contract/custody'
import Link from 'next/link'
import { QuantityText } from '#components/quantity-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

/** What it was made of, with masses, back to what was received. */
export function AncestryPart({ item }: { item: Item }) {
  const words = useWords()
  if (item.madeOf.length === 0) return null
  return (
    <section className="stack" aria-labelledby="made-of">
      <h2 id="made-of">{words('custody.madeOf')}</h2>
      <Branch of={item.id} all={item.madeOf} />
    </section>
  )
}

function Branch({ of, all }: { of: string; all: readonly Ancestor[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const parents = all.filter(({ childId }) => childId === of)
  if (parents.length === 0) return null
  return (
    <ul>
      {parents.map((parent) => (
        <li key={parent.id}>
          <Link href={`/l/${lab.short}/materials/${parent.id}`} prefetch={false}>
            {parent.code}
          </Link>{' '}
          {words(`custody.kind.${parent.kind}`)}
          {parent.name !== '' && `, ${parent.name}`}
          {parent.massG !== null && (
            <>
              {': '}
              <QuantityText digits={parent.massG} unit="g" />
            </>
          )}
          <Branch of={parent.id} all={all} />
        </li>
      ))}
    </ul>
  )
}
