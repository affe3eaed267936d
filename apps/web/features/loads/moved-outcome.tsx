'use client'

import type { LoadMoved } from '@curebook/contract/loads'
import { useWords } from '#lib/words.ts'

/** What could not be confirmed, row by row with the reason; the others went through. */
export function MovedOutcome({
  moved,
  specimens,
}: {
  moved: LoadMoved
  specimens: readonly { readonly testId: string; readonly label: string; readonly code: string }[]
}) {
  const words = useWords()
  const refused = moved.outcome.rows.filter(({ outcome }) => outcome === 'refused')
  if (refused.length === 0) return null
  return (
    <div className="caution" role="alert">
      <p>{words('loads.outcome', { done: moved.outcome.rows.length - refused.length, refused: refused.length })}</p>
      <ul>
        {refused.map(({ id, sentence }) => {
          const specimen = specimens.find(({ testId }) => testId === id)
          return (
            <li key={id}>
              {specimen !== undefined && words('loads.named', { label: specimen.label, code: specimen.code })}{' '}
              {sentence}
            </li>
          )
        })}
      </ul>
    </div>
  )
}
