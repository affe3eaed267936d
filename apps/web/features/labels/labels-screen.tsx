'use client'

import type { Label } from '@curebook/contract/labels'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { flushSync } from 'react-dom'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button } from '#components/button.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { LabelFace } from './label-face.tsx'
import { labelSizes, paperRule, readCount, sizeOf } from './label-sizes.ts'
import { labelQueries, usePrintLabels } from './labels.queries.ts'
import styles from './labels.module.css'

/** Labels of a container in true size: how many, on what, and every print of them. */
export function LabelsScreen({ item }: { item: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(labelQueries.label(lab.id, item))
  return (
    <div className="stack">
      <div className="stack no-print">
        <Breadcrumb
          trail={[
            { href: `/l/${lab.short}/materials`, label: words('labels.materials') },
            { href: `/l/${lab.short}/materials/${item}`, label: query.data?.code ?? words('labels.theItem') },
          ]}
        />
        <PageHeading
          screen={words('labels.title')}
          thing={query.data && words('labels.of', { code: query.data.code })}
        />
      </div>
      <Loaded query={query} what={words('labels.these')} height="20rem">
        {(label) => <Labels label={label} />}
      </Loaded>
    </div>
  )
}

function Labels({ label }: { label: Label }) {
  const words = useWords()
  const lab = useLaboratory()
  const [sizeKey, setSize] = useSearchParam('size')
  const [typed, setTyped] = useState('1')
  const [error, setError] = useState<string>()
  const [printing, setPrinting] = useState(1)
  const [key, setKey] = useState(newId)
  const print = usePrintLabels(lab.id, label.itemId)
  const size = sizeOf(sizeKey)
  function submit(event: React.FormEvent) {
    event.preventDefault()
    const count = readCount(typed)
    setError(count === null ? words('labels.needCount') : undefined)
    if (count === null || print.isPending) return
    // Recorded first: what is in the printer cannot be taken back.
    print.mutate(
      { body: { count }, key },
      {
        onSuccess: () => {
          flushSync(() => setPrinting(count))
          setKey(newId())
          window.print()
        },
      },
    )
  }
  return (
    <>
      <style>{paperRule(size)}</style>
      <form className="stack narrow no-print" noValidate onSubmit={submit} aria-busy={print.isPending}>
        <Select
          name="size"
          label={words('labels.size')}
          value={size.key}
          onChange={(event) => setSize(event.target.value)}
          options={labelSizes.map(({ key: value, width, height }) => ({
            value,
            label: words('labels.sizeOf', { width, height }),
          }))}
        />
        {lab.may('label:print') && (
          <>
            <TextField
              name="count"
              label={words('labels.count')}
              value={typed}
              onChange={(event) => {
                setTyped(event.target.value)
                setKey(newId())
              }}
              inputMode="numeric"
              autoComplete="off"
              error={error}
            />
            <p className="quiet">{words('labels.printerHint', { width: size.width, height: size.height })}</p>
            <div className="row">
              <Button type="submit" tone="main" busy={print.isPending}>
                {words(label.prints.length === 0 ? 'labels.print' : 'labels.printAgain')}
              </Button>
              <SaveState saving={savingOf(print)} />
            </div>
          </>
        )}
      </form>
      <h2 className="no-print">{words('labels.preview')}</h2>
      <div className={styles.frame} tabIndex={0} role="group" aria-label={words('labels.preview')}>
        <ul className={styles.sheet}>
          {Array.from({ length: printing }, (_, index) => (
            <li key={index} className={index === 0 ? styles.shown : styles.paper}>
              <LabelFace label={label} size={size} />
            </li>
          ))}
        </ul>
      </div>
      <Prints prints={label.prints} />
    </>
  )
}

function Prints({ prints }: { prints: Label['prints'] }) {
  const words = useWords()
  return (
    <section className="stack stack-tight no-print" aria-labelledby="prints">
      <h2 id="prints">{words('labels.prints')}</h2>
      {prints.length === 0 && <p className="quiet">{words('labels.neverPrinted')}</p>}
      <ol>
        {prints.map(({ at, by, count }, index) => (
          <li key={`${at} ${index}`}>
            {words(index === 0 ? 'labels.printed' : 'labels.reprinted', { count, name: by.name })} <TimeText at={at} />
          </li>
        ))}
      </ol>
    </section>
  )
}
