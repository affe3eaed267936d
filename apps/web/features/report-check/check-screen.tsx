'use client'

import { PageHeading } from '#components/page-heading.tsx'
import { useWords } from '#lib/words.ts'
import { CheckForm } from './check-form.tsx'

/** Anybody who holds a report can ask whether it is genuine and still in force. */
export function CheckScreen() {
  const words = useWords()
  return (
    <div className="stack">
      <PageHeading screen={words('reportCheck.title')} under={words('reportCheck.about')} />
      <CheckForm />
    </div>
  )
}
