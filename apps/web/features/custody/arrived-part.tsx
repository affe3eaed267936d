'use client'

import type { Item, Receipt } from '@curebook/contract/custody'
import type { ReactNode } from 'react'
import { DayText, TimeText } from '#components/time-text.tsx'
import { useWords } from '#lib/words.ts'
import { CorrectReceipt } from './correct-receipt.tsx'

/** What arrived, as it was found and told; for what was made here, what it is. */
export function ArrivedPart({ item }: { item: Item }) {
  const words = useWords()
  const { receipt } = item
  const facts: readonly (readonly [string, ReactNode])[] = [
    [words('custody.kindOfMaterial'), item.materialKind && words(`custody.material.${item.materialKind}`)],
    [words('custody.source'), item.sourceName],
    [words('custody.supplier'), item.supplier],
    [words('custody.lot'), item.lot],
    [words('custody.receivedOn'), item.receivedOn && <DayText day={item.receivedOn} />],
    [words('custody.form'), item.form && words(`custody.form.${item.form}`)],
    [words('custody.fraction'), item.fraction],
    [words('custody.scalped'), item.scalped],
    ...(receipt ? receiptFacts(receipt, words) : []),
    [words('custody.noteOfItem'), item.note],
  ]
  const told = facts.filter(([, value]) => value !== null && value !== '')
  if (told.length === 0) return null
  return (
    <section className="stack" aria-labelledby="arrived">
      <h2 id="arrived">{words(item.kind === 'sample' ? 'custody.whatArrived' : 'custody.whatItIs')}</h2>
      <dl className="facts panel">
        {told.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {receipt?.emulsionAge && <Age age={receipt.emulsionAge} />}
      <Earlier item={item} />
      <CorrectReceipt item={item} />
    </section>
  )
}

/** Receipts as they were told before they were put right: struck through, with who did it, when and why. */
function Earlier({ item }: { item: Item }) {
  const words = useWords()
  return item.earlierReceipts.map(({ receipt, correctedBy, correctedAt, reason }) => (
    <p key={correctedAt} className="quiet">
      <s>
        {receiptFacts(receipt, words)
          .filter(([, value]) => value !== null && value !== '')
          .map(([name, value]) => `${name}: ${String(value)}`)
          .join('; ')}
        {receipt.emulsionAge && `; ${words('custody.made')} ${receipt.emulsionAge.madeOn}`}
      </s>{' '}
      {words('custody.receipt.by', { name: correctedBy.name, reason })} <TimeText at={correctedAt} />
    </p>
  ))
}

function receiptFacts(receipt: Receipt, words: ReturnType<typeof useWords>): readonly (readonly [string, ReactNode])[] {
  const { containers, containerCount, containerKind, safetySheet, safetySheetName } = receipt
  const count = [containerCount === null ? '' : String(containerCount), containerKind ?? ''].filter(Boolean).join(' × ')
  return [
    [words('custody.containers'), [count, containers.map(({ typed }) => typed).join('; ')].filter(Boolean).join(': ')],
    [words('custody.sampledBy'), receipt.sampledBy],
    [words('custody.sampledWhere'), receipt.sampledWhere],
    [words('custody.sampledHow'), receipt.sampledHow],
    [
      words('custody.safetySheet'),
      [safetySheet === null ? '' : words(`custody.sheet.${safetySheet}`), safetySheetName ?? '']
        .filter(Boolean)
        .join(': '),
    ],
  ]
}

function Age({ age }: { age: NonNullable<Receipt['emulsionAge']> }) {
  const words = useWords()
  const { days, retestFromDay: from, source } = age
  return (
    <p className={days >= from ? 'caution' : undefined}>
      {words('custody.made')} <DayText day={age.madeOn} />.{' '}
      {words(days >= from ? 'custody.ageOver' : 'custody.age', { days, from })}{' '}
      <span className="quiet">({source})</span>
    </p>
  )
}
