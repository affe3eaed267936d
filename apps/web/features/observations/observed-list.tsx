'use client'

import type { TestView } from '@curebook/contract/bench'
import type { Observation } from '@curebook/contract/observations'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { lazyPart } from '#components/lazy-part.tsx'
import { TimeText } from '#components/time-text.tsx'
import { attachmentPath } from '#features/attachments/attachments.queries.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import styles from './observations.module.css'

const ObservationForm = lazyPart(() => import('./observation-form.tsx').then(({ ObservationForm: form }) => form))

/** What was seen at a step, with who, when and the photograph; what was entered in error struck through. */
export function ObservedList({ view, stepKey, name }: { view: TestView; stepKey: string; name: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const [correcting, setCorrecting] = useState<Observation>()
  const seen = view.observations.filter((one) => one.stepKey === stepKey)
  if (seen.length === 0) return null
  return (
    <>
      <ul className={styles.list}>
        {seen.map((one) => (
          <li key={one.id}>
            <ObservedText observation={one} />
            <TimeText at={one.eventAt} look="short" />
            <span className="quiet">
              {one.by.name}
              {one.supersedes !== null && `, ${words('observations.corrected', { reason: one.supersedes.reason })}`}
            </span>
            {one.attachment !== null && <ObservedPhoto file={one.attachment} name={name} />}
            {!one.superseded && lab.may('observation:create') && (
              <Button
                tone="quiet"
                onClick={() => setCorrecting(one)}
                aria-label={words('observations.correctNamed', { seen: words(`observations.seen.${one.choice}`) })}
              >
                {words('observations.correct')}
              </Button>
            )}
          </li>
        ))}
      </ul>
      {correcting !== undefined && (
        <ObservationForm
          key={correcting.id}
          view={view}
          stepKey={stepKey}
          name={name}
          supersedes={correcting}
          onStored={() => setCorrecting(undefined)}
        />
      )}
    </>
  )
}

export function ObservedText({ observation }: { observation: Pick<Observation, 'choice' | 'note' | 'superseded'> }) {
  const words = useWords()
  const { choice, note, superseded } = observation
  const parts = choice === 'other' ? [note] : [words(`observations.seen.${choice}`), note]
  const text = parts.filter(Boolean).join(', ')
  return <span>{superseded ? <s>{text}</s> : text}</span>
}

/** A photograph small, the whole of it behind it. */
export function ObservedPhoto({ file, name }: { file: NonNullable<Observation['attachment']>; name: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const path = attachmentPath(lab.id, file.id)
  const isPicture = file.mediaType.startsWith('image/')
  return (
    <a href={path} download={file.name} className={styles.photo}>
      {isPicture ? (
        // Of this laboratory and behind its sign-in: nothing for an image service to make smaller.
        <img src={path} alt={words('observations.photoOf', { name })} loading="lazy" />
      ) : (
        words('attachments.save', { name: file.name })
      )}
    </a>
  )
}
