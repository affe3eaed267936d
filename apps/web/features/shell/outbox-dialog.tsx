'use client'

import { useRef, useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import type { OutboxEntry } from '#lib/outbox/outbox-entry.ts'
import { useOutbox } from '#lib/outbox/outbox-provider.tsx'
import { useWords } from '#lib/words.ts'
import { AskTakeOut } from './ask-take-out.tsx'

/** Everything that is on this device still: what was refused is sent again from here, or taken out after one question. */
export function OutboxDialog({ onClose }: { onClose: () => void }) {
  const words = useWords()
  const { entries, sendAgain, takeOut } = useOutbox()
  const list = useRef<HTMLUListElement>(null)
  return (
    <Dialog title={words('shell.outbox.title')} onClose={onClose} wide>
      <p className="quiet">{words('shell.outbox.about')}</p>
      {entries.length === 0 && <p>{words('shell.outbox.none')}</p>}
      <ul ref={list} className="plain-list stack" tabIndex={-1} aria-label={words('shell.outbox.title')}>
        {entries.map((entry) => (
          <li key={entry.id} className="panel stack stack-tight">
            <EntryOnDevice
              entry={entry}
              // The entry goes, or waits again, and its buttons go with that: the focus stays in the list.
              onTakeOut={() => {
                list.current?.focus()
                void takeOut(entry.id)
              }}
              onSendAgain={() => {
                list.current?.focus()
                void sendAgain(entry.id)
              }}
            />
          </li>
        ))}
      </ul>
    </Dialog>
  )
}

function EntryOnDevice({
  entry,
  onTakeOut,
  onSendAgain,
}: {
  entry: OutboxEntry
  onTakeOut: () => void
  onSendAgain: () => void
}) {
  const words = useWords()
  const { me } = useLaboratory()
  const [asked, setAsked] = useState<'now' | 'left'>()
  const own = entry.membershipId === me.membershipId
  return (
    <>
      <span className="row">
        <StatusMark status={entry.state === 'refused' ? 'refused' : 'queued'} />
        <span className="strong">{entry.label}</span>
        <TimeText at={entry.queuedAt} look="short" />
      </span>
      {!own && <span>{words('shell.outbox.waitsFor', { name: entry.personName })}</span>}
      {entry.problem !== undefined && <span>{entry.problem.message}</span>}
      {entry.state === 'refused' && own && asked !== 'now' && (
        <span className="row">
          <Button
            size="bench"
            onClick={onSendAgain}
            aria-label={words('shell.outbox.sendAgainNamed', { entry: entry.label })}
          >
            {words('shell.outbox.sendAgain')}
          </Button>
          <Button
            size="bench"
            tone="quiet"
            autoFocus={asked === 'left'}
            onClick={() => setAsked('now')}
            aria-label={words('shell.outbox.takeOutNamed', { entry: entry.label })}
          >
            {words('shell.outbox.takeOut')}
          </Button>
        </span>
      )}
      {entry.state === 'refused' && own && asked === 'now' && (
        <AskTakeOut label={entry.label} at={entry.queuedAt} onTakeOut={onTakeOut} onLeave={() => setAsked('left')} />
      )}
    </>
  )
}
