'use client'

import { ButtonLink } from '#components/button.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { useWords } from '#lib/words.ts'

export function NotFoundScreen() {
  const words = useWords()
  return (
    <div className="stack">
      <PageHeading screen={words('shell.notFound.title')} under={words('shell.notFound.text')} />
      <div>
        <ButtonLink href="/" tone="main">
          {words('common.toFirstScreen')}
        </ButtonLink>
      </div>
    </div>
  )
}
