'use client'

import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Icon } from '#components/icon.tsx'
import { lazyPart } from '#components/lazy-part.tsx'
import { useKeptSince } from '#lib/kept-answer.ts'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLiveState } from '#lib/live-provider.tsx'
import { useOutbox } from '#lib/outbox/outbox-provider.tsx'
import { useWords } from '#lib/words.ts'
import styles from './shell.module.css'

const OutboxDialog = lazyPart(() => import('./outbox-dialog.tsx').then(({ OutboxDialog: dialog }) => dialog))

/** Says on every page what has not reached the server yet, and that other people's changes do not arrive. */
export function WaitingBanner() {
  const words = useWords()
  const live = useLiveState()
  const { waiting, refused, entries } = useOutbox()
  const { me } = useLaboratory()
  const [open, setOpen] = useState(false)
  const kept = useKeptSince()
  const format = useLaboratoryFormat()
  const others = entries.filter(({ membershipId }) => membershipId !== me.membershipId).length
  return (
    <>
      <div role="status" className={styles.banners}>
        {kept !== undefined && (
          <div className={styles.banner}>
            <Icon name="cloud" />
            {words('shell.kept.since', { time: format.instant(new Date(kept).toISOString(), 'clock') })}
          </div>
        )}
        {live === 'lost' && kept === undefined && (
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
