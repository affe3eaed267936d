'use client'

import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { Icon } from '#components/icon.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLiveState } from '#lib/live-provider.tsx'
import { useOutbox } from '#lib/outbox/outbox-provider.tsx'
import { useWords } from '#lib/words.ts'
import styles from './shell.module.css'

/** Says on every page what has not reached the server yet, and that other people's changes do not arrive. */
export function WaitingBanner() {
  const words = useWords()
  const live = useLiveState()
  const { waiting, refused, entries } = useOutbox()
  const { me } = useLaboratory()
  const [open, setOpen] = useState(false)
  const others = entries.filter(({ membershipId }) => membershipId !== me.membershipId).length
  return (
    <>
      <div role="status" className={styles.banners}>
        {live === 'lost' && (
          <div className={styles.banner}>
            <Icon name="warning" />
            {words('shell.live.lost')}
          </div>
        )}
        {(refused > 0 || waiting > 2 || others > 0 || (waiting > 0 && live === 'lost')) && (
          <div className={`${styles.banner} ${refused > 0 ? styles.refused : ''}`}>
            <Icon name={refused > 0 ? 'warning' : 'cloud'} />
            {words('shell.outbox.summary', { waiting, refused, others })}
            <Button size="small" onClick={() => setOpen(true)}>
              {words('shell.outbox.show')}
            </Button>
          </div>
        )}
      </div>
      {open && <OutboxDialog onClose={() => setOpen(false)} />}
    </>
  )
}

function OutboxDialog({ onClose }: { onClose: () => void }) {
  const words = useWords()
  const { entries, sendAgain, takeOut } = useOutbox()
  const { me } = useLaboratory()
  return (
    <Dialog title={words('shell.outbox.title')} onClose={onClose} wide>
      <p className="quiet">{words('shell.outbox.about')}</p>
      {entries.length === 0 && <p>{words('shell.outbox.none')}</p>}
      <ul className="plain-list stack">
        {entries.map((entry) => (
          <li key={entry.id} className="panel stack stack-tight">
            <span className="row">
              <StatusMark status={entry.state === 'refused' ? 'refused' : 'queued'} />
              <span className="strong">{entry.label}</span>
              <TimeText at={entry.queuedAt} look="short" />
            </span>
            {entry.membershipId !== me.membershipId && (
              <span>{words('shell.outbox.waitsFor', { name: entry.personName })}</span>
            )}
            {entry.problem !== undefined && <span>{entry.problem.message}</span>}
            {entry.state === 'refused' && entry.membershipId === me.membershipId && (
              <span className="row">
                <Button size="small" onClick={() => void sendAgain(entry.id)}>
                  {words('shell.outbox.sendAgain')}
                </Button>
                <Button size="small" tone="quiet" onClick={() => void takeOut(entry.id)}>
                  {words('shell.outbox.takeOut')}
                </Button>
              </span>
            )}
          </li>
        ))}
      </ul>
    </Dialog>
  )
}
