'use client'

import type { SpecificationHistory } from '@curebook/contract/own-specifications'
import Link from 'next/link'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { ChangeList } from './change-list.tsx'

/** Versions of one line, the newest first: who, when, why, and what each says otherwise than the one before. */
export function VersionList({ history }: { history: SpecificationHistory }) {
  const words = useWords()
  const lab = useLaboratory()
  const { specification, versions, withdrawn } = history
  return (
    <section className="stack stack-tight" aria-labelledby="versions">
      <h2 id="versions">{words('specifications.versions')}</h2>
      {withdrawn !== null && (
        <p>
          <StatusMark status="ended">{words('specifications.standing.withdrawn')}</StatusMark>{' '}
          <TimeText at={withdrawn.at} />, {withdrawn.by.name}: {withdrawn.reason}
        </p>
      )}
      <ol className="plain-list stack stack-tight">
        {versions.map(({ id, version, by, at, reason, changes, designs, projects }) => (
          <li key={id} className="panel stack stack-tight">
            <h3>
              {id === specification.id ? (
                <span aria-current="true">{words('specifications.versionShown', { version })}</span>
              ) : (
                <Link href={`/l/${lab.short}/specifications/${id}`} prefetch={false}>
                  {words('specifications.versionOf', { version })}
                </Link>
              )}
            </h3>
            <p className="quiet">
              <TimeText at={at} />
              {by !== null && `, ${by.name}`}. {words('specifications.stoodOnBy', { count: projects })}{' '}
              {words('specifications.pinnedBy', { count: designs })}
            </p>
            {reason !== null && <p>{reason}</p>}
            {changes.length > 0 && <ChangeList changes={changes} />}
          </li>
        ))}
      </ol>
    </section>
  )
}
