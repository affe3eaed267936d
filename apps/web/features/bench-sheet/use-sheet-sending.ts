'use client'

import type { PostReading, PostStepEvents } from '@curebook/contract/bench'
import type { BulkOutcome } from '@curebook/contract/schedule'
import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { labPath } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'
import { newId } from '#lib/new-id.ts'
import { postAs } from '#lib/post-as.ts'
import { createBoxActs } from './box-acts.ts'
import { wordsOfFailure } from './failure.ts'
import type { SheetCell } from './sheet-cells.ts'

export type Sent = { readonly cell: SheetCell; readonly instrumentId: string | null; readonly confirmedOdd: boolean }

/**
 * Sends the boxes of a sheet one after another, and keeps of each whether it is stored or what was said. A box that is sent
 * again after a lost answer is the same act or reading.
 */
export function useSheetSending({ lab, membershipId }: { lab: string; membershipId: string }, stepKey: string) {
  const client = useQueryClient()
  const [acts] = useState(() => createBoxActs(newId))
  const [stored, setStored] = useState<ReadonlyMap<string, string>>(new Map())
  const [errors, setErrors] = useState<ReadonlyMap<string, string>>(new Map())
  const [sending, setSending] = useState(false)

  async function sendOne({ cell, instrumentId, confirmedOdd }: Sent, attachmentId: string | undefined) {
    const { row, column, typed } = cell
    const act = acts.of(cell)
    if (act === undefined) return undefined
    const { id } = act
    if (column.kind === 'act') {
      const body: PostStepEvents = {
        stepKey,
        kind: column.act,
        rows: [{ id, testId: row.testId }],
        instrumentId,
        time: act.time,
      }
      const { rows } = await postAs<BulkOutcome>({ membershipId }, labPath(lab, 'step-events'), body)
      const [answer] = rows
      if (answer?.outcome !== 'refused') return undefined
      acts.forget(cell)
      return answer.sentence ?? ''
    }
    const { declaration, repeat } = column.slot
    const body: PostReading = {
      id,
      stepKey,
      key: declaration.key,
      repeat,
      typed,
      instrumentId,
      time: act.time,
      confirmedOdd,
      deviceId: null,
      ...(attachmentId === undefined ? {} : { attachmentId }),
    }
    await postAs({ membershipId }, labPath(lab, 'tests', row.testId, 'readings'), body)
    return undefined
  }

  /** @returns the boxes that are not stored */
  async function send(all: readonly Sent[], attachmentId: string | undefined): Promise<ReadonlySet<string>> {
    setSending(true)
    const said = new Map<string, string>()
    const done = new Map(stored)
    for (const one of all) {
      const sentence = await sendOne(one, attachmentId).catch((cause: unknown) => wordsOfFailure(cause))
      if (sentence === undefined) done.set(one.cell.key, one.cell.typed)
      else said.set(one.cell.key, sentence)
      setStored(new Map(done))
      setErrors(new Map(said))
    }
    setSending(false)
    const tests = [...new Set(all.map(({ cell }) => cell.row.testId))]
    void refreshTopics(client, ['bench', 'schedule', 'design', ...tests.map((id) => `test:${id}`)])
    return new Set(said.keys())
  }
  return { stored, errors, sending, send, tell: (said: ReadonlyMap<string, string>) => setErrors(said) }
}
