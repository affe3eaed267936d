'use client'

import type { ConditionLog } from '@curebook/contract/conditions'
import { useRef, useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { TimeText } from '#components/time-text.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { copyText } from '#lib/copy-text.ts'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { useMakeKey } from './conditions.queries.ts'

/** A key for a logger, shown this one time; a new one ends the one before. */
export function KeyDialog({
  instrumentId,
  code,
  standing,
  onClose,
}: {
  instrumentId: string
  code: string
  standing: ConditionLog['key']
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const make = useMakeKey(lab.id, instrumentId)
  const [ids] = useState(() => ({ made: newId(), ended: newId() }))
  return (
    <Dialog title={words('conditions.keyOf', { code })} onClose={onClose}>
      {make.data?.key ? (
        <MadeKey value={make.data.key} onClose={onClose} />
      ) : (
        <div className="stack" data-form>
          <FormErrors errors={fieldErrors(make.error)} />
          <p>{words('conditions.keyAbout')}</p>
          {standing === null ? (
            <p>{words('conditions.noKey')}</p>
          ) : (
            <p>
              {words('conditions.keySince', { name: standing.by.name })} <TimeText at={standing.at} look="short" />
            </p>
          )}
          <div className="row">
            <Button tone="main" busy={make.isPending} onClick={() => make.mutate({ id: ids.made, end: false })}>
              {words(standing === null ? 'conditions.makeKey' : 'conditions.makeAnother')}
            </Button>
            {standing !== null && (
              <Button
                tone="danger"
                busy={make.isPending}
                onClick={() => make.mutate({ id: ids.ended, end: true }, { onSuccess: onClose })}
              >
                {words('conditions.endKey')}
              </Button>
            )}
            <SaveState saving={savingOf(make)} />
          </div>
        </div>
      )}
    </Dialog>
  )
}

function MadeKey({ value, onClose }: { value: string; onClose: () => void }) {
  const words = useWords()
  const [copied, setCopied] = useState<'yes' | 'by-hand'>()
  const part = useRef<HTMLDivElement>(null)
  async function copy() {
    const done = await copyText(value)
    setCopied(done ? 'yes' : 'by-hand')
    // Focus selects it: what is left is the device's own way to copy.
    if (!done) part.current?.querySelector('input')?.focus()
  }
  return (
    <div className="stack" ref={part}>
      <p>{words('conditions.keyOnce')}</p>
      <TextField
        name="key"
        label={words('conditions.theKey')}
        value={value}
        readOnly
        onFocus={(event) => event.target.select()}
      />
      <p className="quiet">{words('conditions.keyHow', { address: `${window.location.origin}/api/conditions` })}</p>
      <div className="row">
        <Button tone="main" onClick={() => void copy()}>
          {words('conditions.copyKey')}
        </Button>
        <Button onClick={onClose}>{words('conditions.haveKey')}</Button>
        <span role="status">
          {copied === undefined ? '' : words(copied === 'yes' ? 'conditions.copied' : 'conditions.copyByHand')}
        </span>
      </div>
    </div>
  )
}
