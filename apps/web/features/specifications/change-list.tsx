'use client'

import { useWords } from '#lib/words.ts'

type Change = { readonly what: string; readonly before: string | null; readonly after: string | null }

/** What a version says otherwise than another: each thing as it was and as it is. */
export function ChangeList({ changes }: { changes: readonly Change[] }) {
  const words = useWords()
  return (
    <dl className="facts">
      {changes.map(({ what, before, after }, index) => (
        // Two limits may bear the same name.
        <div key={`${index} ${what}`} style={{ gridColumn: '1 / -1' }}>
          <dt>{what}</dt>
          <dd>
            <span className="quiet">{words('specifications.was')}</span> {before ?? words('specifications.notHeld')}
            <span style={{ display: 'block' }}>
              <span className="quiet">{words('specifications.is')}</span> {after ?? words('specifications.notHeld')}
            </span>
          </dd>
        </div>
      ))}
    </dl>
  )
}
