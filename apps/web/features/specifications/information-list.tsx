'use client'

import type { Specification } from '@curebook/contract/specifications'
import { useWords } from '#lib/words.ts'
import { SourceText } from './source-text.tsx'

/** What the source says beside its limits; nothing is judged by it. */
export function InformationList({ items }: { items: Specification['information'] }) {
  const words = useWords()
  if (items.length === 0) return null
  return (
    <section className="stack stack-tight" aria-labelledby="information">
      <h2 id="information">{words('specifications.information')}</h2>
      <dl className="facts">
        {items.map((item) => (
          <div key={`${item.label} ${item.words}`}>
            <dt>{item.label}</dt>
            <dd>
              {item.words}
              <span className="quiet small" style={{ display: 'block' }}>
                <SourceText source={item.source} certainty={item.certainty} />
              </span>
            </dd>
          </div>
        ))}
      </dl>
    </section>
  )
}
