'use client'

import type { EditSpecification, SpecificationHistory } from '@curebook/contract/own-specifications'
import type { Specification } from '@curebook/contract/specifications'
import { Button } from '#components/button.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useWords } from '#lib/words.ts'
import { ChangeList } from './change-list.tsx'
import { changesSent, type Version } from './other-versions.ts'

/**
 * What came on top of the version that is open in the form: who made it, when, why and what it changed; after a refusal what
 * was sent stands below it. `after` is the version that the form would be stored after.
 */
export function OtherVersionPart({
  opened,
  others,
  withdrawn,
  refused,
  after,
  onAfter,
}: {
  opened: Specification
  others: readonly Version[]
  withdrawn: SpecificationHistory['withdrawn']
  refused: EditSpecification | undefined
  after: string
  onAfter: (id: string) => void
}) {
  const words = useWords()
  const newest = others.at(-1)
  if (newest === undefined && withdrawn === null) return null
  const typed = refused && changesSent(opened, refused)
  return (
    <section className="panel stack stack-tight" aria-labelledby="other-version">
      <h2 id="other-version">{words('specifications.otherVersion')}</h2>
      <p className="prose" role="status">
        {words('specifications.otherVersionAbout')}
      </p>
      {withdrawn !== null && (
        <p>
          <StatusMark status="ended">{words('specifications.standing.withdrawn')}</StatusMark>{' '}
          <TimeText at={withdrawn.at} />, {withdrawn.by.name}: {withdrawn.reason}{' '}
          {words('specifications.withdrawnMeanwhile')}
        </p>
      )}
      {others.map(({ id, version, by, at, reason, changes }) => (
        <div key={id} className="stack stack-tight">
          <h3>{words('specifications.versionOf', { version })}</h3>
          <p className="quiet">
            <TimeText at={at} />
            {by !== null && `, ${by.name}`}
          </p>
          {reason !== null && <p>{reason}</p>}
          <ChangeList changes={changes} />
        </div>
      ))}
      {typed !== undefined && (
        <div className="stack stack-tight">
          <h3>{words('specifications.typedHere')}</h3>
          {typed.length === 0 ? <p>{words('specifications.typedNothing')}</p> : <ChangeList changes={typed} />}
        </div>
      )}
      {newest !== undefined &&
        withdrawn === null &&
        (newest.id === after ? (
          <p className="prose" role="status">
            {words('specifications.goesAfter', { version: newest.version })}
          </p>
        ) : (
          <div>
            <Button onClick={() => onAfter(newest.id)}>
              {words('specifications.sendAfter', { version: newest.version })}
            </Button>
          </div>
        ))}
    </section>
  )
}
