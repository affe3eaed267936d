'use client'

import { Button } from '#components/button.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { useWords } from '#lib/words.ts'

/** A page that failed while it was drawn. */
export function BrokenPage({ onRetry }: { onRetry: () => void }) {
  const words = useWords()
  return (
    <div className="stack" role="alert">
      <PageHeading screen={words('shell.broken.title')} under={words('shell.broken.text')} failed />
      <div>
        <Button tone="main" onClick={onRetry}>
          {words('common.retry')}
        </Button>
      </div>
    </div>
  )
}
