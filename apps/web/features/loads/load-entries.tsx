'use client'

import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { MainActs } from '#components/main-acts.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { WaitsBehind } from '#features/bench/waits-behind.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useOutbox } from '#lib/outbox/outbox-provider.tsx'
import { useWords } from '#lib/words.ts'
import type { WaitingLoad } from './waiting-loads.ts'

type Entry = Pick<WaitingLoad, 'id' | 'label' | 'at' | 'refused' | 'reason' | 'behind'>

/** What was done with these loads and is on this device still, or was not accepted: what it was, and why. Taking out asks once. */
export function LoadEntries({ entries }: { entries: readonly Entry[] }) {
  const words = useWords()
  const { sendAgain, takeOut } = useOutbox()
  const format = useLaboratoryFormat()
  const [asked, setAsked] = useState<Entry>()
  if (entries.length === 0) return null
  return (
    <>
      <ul className="plain-list stack stack-tight" aria-label={words('loads.entries')}>
        {entries.map((entry) => {
          const { id, label, at, refused, reason, behind } = entry
          return (
            <li key={id}>
              <div className={refused ? 'caution stack stack-tight' : 'row'} role={refused ? 'alert' : 'status'}>
                <span className="row">
                  <StatusMark status={refused ? 'refused' : 'queued'}>
                    {words(refused ? 'loads.entryRefused' : 'loads.entryWaits')}
                  </StatusMark>
                  <span>{label}</span>
                  <TimeText at={at} look="clock" />
                </span>
                <WaitsBehind label={behind} />
                {refused && (
                  <>
                    <span>{reason}</span>
                    <span className="row">
                      <Button
                        size="bench"
                        onClick={() => void sendAgain(id)}
                        aria-label={words('loads.sendAgainNamed', { entry: label })}
                      >
                        {words('shell.outbox.sendAgain')}
                      </Button>
                      <Button
                        size="bench"
                        tone="quiet"
                        onClick={() => setAsked(entry)}
                        aria-label={words('loads.takeEntryOutNamed', { entry: label })}
                      >
                        {words('shell.outbox.takeOut')}
                      </Button>
                    </span>
                  </>
                )}
              </div>
            </li>
          )
        })}
      </ul>
      {asked !== undefined && (
        <Dialog title={words('loads.askTakeEntryOut')} onClose={() => setAsked(undefined)}>
          <p>{words('loads.askTakeEntryOutMore', { entry: asked.label, time: format.instant(asked.at, 'short') })}</p>
          <MainActs>
            <Button
              size="bench"
              tone="danger"
              onClick={() => {
                setAsked(undefined)
                void takeOut(asked.id)
              }}
            >
              {words('shell.outbox.takeOut')}
            </Button>
            <Button size="bench" onClick={() => setAsked(undefined)}>
              {words('loads.leaveEntry')}
            </Button>
          </MainActs>
        </Dialog>
      )}
    </>
  )
}
