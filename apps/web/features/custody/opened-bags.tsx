'use client'

import type { OpenedBag } from '@curebook/contract/custody'
import Link from 'next/link'
import { Icon } from '#components/icon.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

/** Bags that batches were weighed out of by name: what is left of each, and which batch drew it down. */
export function OpenedBags({ bags }: { bags: readonly OpenedBag[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const format = useLaboratoryFormat()
  return bags.map((bag) => (
    <div key={bag.id}>
      <Link href={`/l/${lab.short}/materials/${bag.id}`} prefetch={false} className="nowrap">
        {bag.code}
      </Link>
      {': '}
      <BagLeft leftG={bag.leftG} overG={bag.overG} />
      <div className="quiet small">
        {bag.draws
          .map(({ batchCode, massG }) =>
            words('custody.drewOf', { code: batchCode, mass: format.quantity(massG, 'g') }),
          )
          .join(', ')}
      </div>
    </div>
  ))
}

/** What is left of a bag by the record, that it is used up, or that more was drawn than it held. */
export function BagLeft({ leftG, overG }: Pick<OpenedBag, 'leftG' | 'overG'>) {
  const words = useWords()
  const format = useLaboratoryFormat()
  if (overG !== null)
    return (
      <span>
        <Icon name="warning" /> {words('custody.overBy', { mass: format.quantity(overG, 'g') })}
      </span>
    )
  if (leftG === null) return <>{words('custody.notWeighed')}</>
  return <>{leftG === '0' ? words('custody.usedUp') : words('custody.leftOf', { mass: format.quantity(leftG, 'g') })}</>
}
