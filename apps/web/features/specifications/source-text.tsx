'use client'

import { useWords } from '#lib/words.ts'

/** Source and how sure it is; a source that says so itself is not followed by the mark again. */
export function SourceText({ source, certainty }: { source: string; certainty: string }) {
  const words = useWords()
  if (source.includes(certainty)) return <>{source}</>
  const mark = words(`specifications.certainty.${certainty.replaceAll(' ', '-')}`)
  return <>{words('specifications.sourceMark', { source, mark })}</>
}
