'use client'

import type { Item, RecordAct } from '@curebook/contract/custody'
import dynamic from 'next/dynamic'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { Icon } from '#components/icon.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { createSending } from '#lib/sending.ts'
import { useWords } from '#lib/words.ts'
import { CustodianText } from './custodian-text.tsx'
import { BagLeft } from './opened-bags.tsx'
import { useRecordAct } from './custody.queries.ts'
import { toldMeanwhile } from './decided-on.ts'

// Fetched with the first act that asks for more than a tap.
const ActDialog = dynamic(() => import('./act-dialog.tsx').then(({ ActDialog }) => ActDialog), { ssr: false })
const SplitDialog = dynamic(() => import('./split-dialog.tsx').then(({ SplitDialog }) => SplitDialog), { ssr: false })

type Kind = Item['custody']['allowed'][number]

/** Who or which place has it, what is left of it, and the acts that are allowed now. */
export function NowPart({ item }: { item: Item }) {
  const words = useWords()
  const lab = useLaboratory()
  const [open, setOpen] = useState<Kind>()
  const { custody } = item
  const acts = lab.may('custody:record') ? custody.allowed : []
  return (
    <section className="stack" aria-labelledby="now">
      <h2 id="now">{words('custody.now')}</h2>
      <dl className="facts panel">
        <div>
          <dt>{words('custody.with')}</dt>
          <dd className="strong">
            {custody.custodian === null ? (
              words(`custody.status.${custody.status}`)
            ) : (
              <CustodianText custodian={custody.custodian} />
            )}
          </dd>
        </div>
        {custody.offeredTo !== null && (
          <div>
            <dt>{words('custody.offeredTo')}</dt>
            <dd>{custody.offeredTo}</dd>
          </div>
        )}
        {item.kind !== 'batch' && item.kind !== 'specimen' && (
          <div>
            <dt>{words('custody.left')}</dt>
            <dd>
              {custody.overG !== null || custody.massG === '0' ? (
                <BagLeft leftG={custody.massG} overG={custody.overG} />
              ) : custody.massG === null ? (
                words('custody.notWeighed')
              ) : (
                <QuantityText digits={custody.massG} unit="g" />
              )}
            </dd>
          </div>
        )}
      </dl>
      {custody.testBarred !== null && (
        <p className="caution">
          <Icon name="warning" /> {words('custody.noTest', { why: custody.testBarred })}
        </p>
      )}
      {acts.length > 0 && (
        <div className="row no-print">
          {acts.map((kind) =>
            kind === 'taken' ? (
              <TakeOver key={kind} item={item} />
            ) : (
              <Button key={kind} onClick={() => setOpen(kind)}>
                {words(`custody.do.${kind}`)}
              </Button>
            ),
          )}
        </div>
      )}
      {open === 'split' && <SplitDialog item={item} onClose={() => setOpen(undefined)} />}
      {open !== undefined && open !== 'split' && open !== 'taken' && (
        <ActDialog item={item} kind={open} onClose={() => setOpen(undefined)} />
      )}
    </section>
  )
}

/** One tap by whoever takes it: the act that happens most. */
function TakeOver({ item }: { item: Item }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const record = useRecordAct(lab.id, item.id)
  const [sending] = useState(() => createSending<Pick<RecordAct, 'after' | 'time'>>(newId))
  return (
    <div className="stack stack-tight" data-form>
      <FormErrors errors={fieldErrors(record.error)} />
      <Button
        tone="main"
        busy={record.isPending}
        onClick={() => {
          const told = toldMeanwhile(record.error)
          if (told !== undefined) sending.renew()
          const now = new Date().toISOString()
          const taken = sending.take('', record, () => ({
            after: told === undefined ? item.custody.lastEventId : told,
            time: { eventAt: now, eventFrom: 'now', toldAt: now, sentAt: now },
          }))!
          record.mutate(
            { id: sending.id('act'), kind: 'taken', ...taken },
            {
              onSuccess: () => {
                confirm(words('custody.done.taken', { code: item.code }))
                sending.renew()
              },
            },
          )
        }}
      >
        {words('custody.do.taken')}
      </Button>
    </div>
  )
}
