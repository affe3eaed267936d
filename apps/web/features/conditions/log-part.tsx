'use client'

import type { ConditionLog, ConditionValue } from '@curebook/contract/conditions'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Loaded } from '#components/loaded.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { LoadEntries } from '#features/loads/load-entries.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { conditionQueries, useWaitingValues } from './conditions.queries.ts'
import { CorrectDialog } from './correct-dialog.tsx'
import { KeyDialog } from './key-dialog.tsx'
import { LogTable } from './log-table.tsx'
import { ValueDialog } from './value-dialog.tsx'

/** The log of an oven or bath: its last value, what is asked for, what left the limits, and the days behind. */
export function LogPart({ instrumentId, code }: { instrumentId: string; code: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(conditionQueries.log(lab.id, instrumentId))
  const waiting = useWaitingValues().filter((one) => one.instrumentId === instrumentId)
  const [shown, setShown] = useState<'value' | 'key'>()
  const [correcting, setCorrecting] = useState<ConditionValue>()
  return (
    <section className="stack stack-tight" aria-label={words('conditions.logOf', { code })}>
      <LoadEntries entries={waiting} />
      <Loaded query={query} what={words('conditions.theLog')} height="5rem">
        {(log) => (
          <>
            <LastValue log={log} />
            <Deviations log={log} />
            <div className="row">
              {lab.may('condition:create') && (
                <Button size="bench" onClick={() => setShown('value')} aria-label={words('conditions.addOf', { code })}>
                  {words('conditions.add')}
                </Button>
              )}
              {lab.may('instrument:update') && (
                <Button
                  tone="quiet"
                  size="bench"
                  onClick={() => setShown('key')}
                  aria-label={words('conditions.keyOf', { code })}
                >
                  {words('conditions.key')}
                </Button>
              )}
            </div>
            {log.values.length > 0 && (
              <details>
                <summary>{words('conditions.days', { count: log.values.length })}</summary>
                <LogTable log={log} code={code} onCorrect={lab.may('condition:create') ? setCorrecting : undefined} />
              </details>
            )}
            {correcting !== undefined && (
              <CorrectDialog
                instrumentId={instrumentId}
                code={code}
                value={correcting}
                onClose={() => setCorrecting(undefined)}
              />
            )}
            {shown === 'value' && (
              <ValueDialog instrumentId={instrumentId} code={code} onClose={() => setShown(undefined)} />
            )}
            {shown === 'key' && (
              <KeyDialog
                instrumentId={instrumentId}
                code={code}
                standing={log.key}
                onClose={() => setShown(undefined)}
              />
            )}
          </>
        )}
      </Loaded>
    </section>
  )
}

function LastValue({ log }: { log: ConditionLog }) {
  const words = useWords()
  const last = log.values.at(-1)
  const held = log.held.length === 0 ? null : words('conditions.held', { held: log.held.join(', ') })
  if (last === undefined)
    return (
      <p className="quiet">
        {words('conditions.none')} {held}
      </p>
    )
  return (
    <p className="row">
      <StatusMark status={last.outside === true ? 'late' : 'met'}>
        {words(last.outside === true ? 'conditions.outside' : 'conditions.inside')}
      </StatusMark>
      <span>
        {words('conditions.last', { value: last.typed, unit: last.unit })} <TimeText at={last.at} look="short" />
      </span>
      {held !== null && <span className="quiet">{held}</span>}
    </p>
  )
}

/** What waits for a decision; decided ones stand in the list of Quality. */
function Deviations({ log }: { log: ConditionLog }) {
  const words = useWords()
  const lab = useLaboratory()
  const open = log.deviations.filter(({ decided }) => !decided)
  if (open.length === 0) return null
  return (
    <ul className="stack stack-tight">
      {open.map(({ id, text }) => (
        <li key={id} className="row">
          <StatusMark status="open" />
          <span style={{ flex: '1 1 16rem' }}>{text}</span>
          <Link href={`/l/${lab.short}/quality`} prefetch={false}>
            {words('conditions.decide')}
          </Link>
        </li>
      ))}
    </ul>
  )
}
