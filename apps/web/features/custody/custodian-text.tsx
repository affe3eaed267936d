'use client'

import type { Custodian } from '@curebook/contract/custody'
import { useWords } from '#lib/words.ts'

/** Who has it: a person or a place by its name, somebody outside marked so. */
export function CustodianText({ custodian }: { custodian: Custodian | null }) {
  const words = useWords()
  if (custodian === null) return <span className="quiet">{words('custody.nobody')}</span>
  return <>{custodian.kind === 'party' ? words('custody.outsideName', { name: custodian.name }) : custodian.name}</>
}
