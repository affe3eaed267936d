'use client'

import type { Specification } from '@curebook/contract/specifications'
import type { UseMutationResult } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { newId } from '#lib/new-id.ts'
import { createSending } from '#lib/sending.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useContract } from './for-contract.tsx'
import { errorsWithout, type RemovedRow } from './form-rows.ts'
import { isConflict } from './other-versions.ts'

type Schema<Body> = Parameters<typeof useCheckedSubmit<Body>>[0]['schema']

/**
 * Judges and sends a written specification, then shows it. `after` names what it goes after. Its id stays while an answer is
 * lost, so that the same is not stored twice; after a conflict, or to go after another version, it is another one. Tell
 * `onRemoved` of each row taken out: errors then stay with the rows that they are about.
 */
export function useWrittenSubmit<Body extends { readonly id: string }>({
  after,
  schema,
  read,
  save,
}: {
  after: string
  schema: Schema<Body>
  read: (form: FormData, id: string) => unknown
  save: UseMutationResult<Specification, Error, Body>
}) {
  const contract = useContract()
  const router = useRouter()
  const [sending] = useState(() => createSending<never>(newId))
  const [removed, setRemoved] = useState<readonly RemovedRow[]>([])
  const { errors, onSubmit } = useCheckedSubmit<Body>({
    schema: async () => {
      const { safeParse } = await schema()
      return {
        safeParse: (input) => {
          // From here on errors are about the rows as they stand.
          setRemoved([])
          return safeParse(input)
        },
      }
    },
    read: (form) => {
      if (isConflict(save.error)) sending.renew()
      return read(form, sending.id(after))
    },
    save,
    onSaved: () => router.push(contract.addressOf(sending.id(after))),
  })
  return {
    errors: removed.reduce(errorsWithout, errors),
    onSubmit,
    onRemoved: (row: RemovedRow) => setRemoved([...removed, row]),
  }
}
