'use client'

import type { Specification } from '@curebook/contract/specifications'
import type { UseMutationResult } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextArea, TextField } from '#components/text-field.tsx'
import { newId } from '#lib/new-id.ts'
import type { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useContract } from './for-contract.tsx'
import { certainties, LimitEditor } from './limit-editor.tsx'
import { SieveEditor } from './sieve-editor.tsx'
import { useWrittenSubmit } from './use-written-submit.ts'
import { emptyLimit, readWritten } from './written-form.ts'
import styles from './specifications.module.css'

const traffics = ['heavy', 'medium', 'light'] as const

/**
 * A specification of the laboratory's own: written anew, or as the next version of a line with everything as it stands in
 * `before`. `after` is the id of the version that it goes after. What is written anew may begin as another one stands
 * (`start`), under a name of its own.
 */
export function WriteForm<Body extends { readonly id: string }>({
  before,
  start = before,
  after = 'none',
  schema,
  save,
}: {
  before: Specification | null
  start?: Specification | null
  after?: string
  schema: Parameters<typeof useCheckedSubmit<Body>>[0]['schema']
  save: UseMutationResult<Specification, Error, Body>
}) {
  const words = useWords()
  const { projectId } = useContract()
  const [limits, setLimits] = useState(() =>
    (start?.limits ?? [emptyLimit]).map((limit) => ({ id: newId(), start: limit, isNew: start === null })),
  )
  const [sieves, setSieves] = useState<number | null>(start?.gradationBand?.sieves.length ?? null)
  const { errors, onSubmit, onRemoved } = useWrittenSubmit<Body>({
    after,
    schema,
    read: (form, id) => ({
      ...readWritten(form, { id, limits: limits.length, sieves }),
      ...(before === null ? { projectId } : { reason: String(form.get('reason') ?? '') }),
    }),
    save,
  })
  return (
    <form className="stack" noValidate onSubmit={onSubmit} aria-busy={save.isPending}>
      <FormErrors errors={errors} />
      <HeadFields start={start} name={before?.name} errors={errors} />
      <h2>{words('specifications.limits')}</h2>
      <p className="quiet prose">{words('specifications.limitsAbout')}</p>
      <ul className="plain-list stack stack-tight" data-field="limits">
        {limits.map(({ id: row, start: limit, isNew }, index) => (
          <li key={row}>
            <LimitEditor
              {...{ index, isNew, errors }}
              start={limit}
              onRemove={() => {
                setLimits(limits.filter((other) => other.id !== row))
                onRemoved({ list: 'limits', index })
              }}
            />
          </li>
        ))}
      </ul>
      <div>
        <Button onClick={() => setLimits([...limits, { id: newId(), start: emptyLimit, isNew: true }])}>
          {words('specifications.addLimit')}
        </Button>
      </div>
      <SieveEditor
        band={start?.gradationBand ?? null}
        errors={errors}
        onCount={setSieves}
        onRemoved={(index) => onRemoved({ list: 'gradationBand.sieves', index })}
      />
      {before !== null && (
        <div className="narrow">
          <TextArea
            name="reason"
            label={words('specifications.versionReason')}
            hint={words('specifications.versionReasonHint')}
            rows={2}
            error={errors.reason}
          />
        </div>
      )}
      <div className="row">
        <Button type="submit" tone="main" busy={save.isPending}>
          {words(before === null ? 'specifications.store' : 'specifications.storeVersion')}
        </Button>
        <SaveState saving={savingOf(save)} />
      </div>
    </form>
  )
}

function HeadFields({
  start,
  name,
  errors,
}: {
  start: Specification | null
  name: string | undefined
  errors: Readonly<Record<string, string>>
}) {
  const words = useWords()
  const text = (field: string, value: string | null | undefined) => ({
    name: field,
    defaultValue: value ?? '',
    error: errors[field],
    autoComplete: 'off',
  })
  const band = start?.residualBand
  return (
    <>
      <div className={styles.grid}>
        <TextField
          {...text('name', name)}
          label={words('specifications.name')}
          hint={words('specifications.nameHint')}
        />
        <TextField
          {...text('source', start?.source)}
          label={words('specifications.ownSource')}
          hint={words('specifications.ownSourceHint')}
        />
        <TextField {...text('aggregateType', start?.aggregateType)} label={words('specifications.aggregateType')} />
        <Select
          name="traffic"
          label={words('specifications.traffic')}
          defaultValue={start?.traffic ?? 'heavy'}
          error={errors.traffic}
          options={traffics.map((value) => ({ value, label: words(`specifications.traffic.${value}`) }))}
        />
      </div>
      <h2>{words('specifications.band')}</h2>
      <div className={styles.grid}>
        <TextField
          {...text('residualBand.from', band?.from)}
          label={words('specifications.bandFrom')}
          hint={words('specifications.bandOpen')}
          inputMode="decimal"
        />
        <TextField
          {...text('residualBand.to', band?.to)}
          label={words('specifications.bandTo')}
          hint={words('specifications.bandOpen')}
          inputMode="decimal"
        />
        <TextField {...text('residualBand.source', band?.source)} label={words('specifications.bandSource')} />
        <Select
          name="residualBand.certainty"
          label={words('specifications.bandMark')}
          defaultValue={band?.certainty ?? 'by contract'}
          options={certainties.map((value) => ({
            value,
            label: words(`specifications.certainty.${value.replaceAll(' ', '-')}`),
          }))}
        />
      </div>
    </>
  )
}
