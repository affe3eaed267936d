'use client'

import { useWords } from '#lib/words.ts'
import type { MovedRow } from './send-load.ts'

/** What could not be confirmed, row by row with the reason; the others went through. */
export function MovedOutcome({
  moved,
  specimens,
}: {
  moved: readonly MovedRow[]
  specimens: readonly { readonly testId: string; readonly label: string; readonly code: string }[]
}) {
  const words = useWords()
  const refused = moved.filter(({ outcome }) => outcome === 'refused')
  if (refused.length === 0) return null
  return (
    <div className="caution" role="alert">
      <p>{words('loads.outcome', { done: moved.length - refused.length, refused: refused.length })}</p>
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
