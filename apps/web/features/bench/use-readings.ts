'use client'

import type { CorrectReading, PostedReading, PostReading, WithdrawReading } from '@curebook/contract/bench'
import type { EventTime } from '@curebook/contract/common'
import { useCallback, useEffect, useMemo, useState } from 'react'
import { labPath } from '#lib/api-client.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useOutbox } from '#lib/outbox/outbox-provider.tsx'
import { topicsOfTest } from './bench.queries.ts'
import { entryOf, type Entry } from './reading-entry.ts'
import { slotKey } from './reading-slots.ts'
import { undoneIds } from './undo.ts'

export type NewReading = {
  readonly testId: string
  readonly stepKey: string
  readonly key: string
  readonly repeat: number
  readonly typed: string
  readonly time: EventTime
  readonly instrumentId: string | null
  readonly confirmedOdd: boolean
  /** Of a component of a batch: the bag that it is weighed out of. */
  readonly drawnFromId?: string | undefined
  /** What it is, for the list of what waits: "Mass of 10-3 (7KD2): 812.4". */
  readonly label: string
}
export type NewCorrection = Pick<NewReading, 'testId' | 'typed' | 'time' | 'label'> & {
  readonly readingId: string
  readonly slot: Entry['slot']
  readonly reason: string
  /** Null where it was of no bag by name; left out where it was as before. */
  readonly drawnFromId?: string | null | undefined
}
export type Readings = ReturnType<typeof useReadings>

/**
 * Readings entered on this screen or still on this device, through the outbox: written down before they are sent, in the
 * order of each test, kept until the server has answered.
 */
export function useReadings() {
  const lab = useLaboratory()
  const outbox = useOutbox()
  const online = useOnline()
  const [made, setMade] = useState<readonly Entry[]>([])
  const { put, takeOut } = outbox

  const send = useCallback(
    async (
      path: string,
      body: { readonly id: string },
      entry: Pick<Entry, 'testId' | 'slot' | 'corrects' | 'typed' | 'at'> & Partial<Pick<Entry, 'undoes'>>,
      label: string,
    ) => {
      await put({ id: body.id, lane: entry.testId, path, body, label, topics: topicsOfTest(entry.testId) })
      const fresh = {
        undoes: undefined,
        ...entry,
        label,
        id: body.id,
        enteredAt: Date.now(),
        state: 'queued',
        tries: 0,
        problem: undefined,
        answer: undefined,
      } as const
      setMade((before) => [...before, fresh])
      return body.id
    },
    [put],
  )
  const post = useCallback(
    ({ testId, label, stepKey, key, repeat, typed, time, instrumentId, confirmedOdd, drawnFromId }: NewReading) => {
      const body: PostReading = {
        id: newId(),
        stepKey,
        key,
        repeat,
        typed,
        instrumentId,
        time,
        confirmedOdd,
        deviceId: null,
        ...(drawnFromId === undefined ? {} : { drawnFromId }),
      }
      const entry = { testId, slot: { stepKey, key, repeat }, corrects: undefined, typed, at: time.eventAt }
      return send(labPath(lab.id, 'tests', testId, 'readings'), body, entry, label)
    },
    [lab.id, send],
  )
  const correct = useCallback(
    ({ testId, readingId, slot, typed, time, reason, label, drawnFromId }: NewCorrection) => {
      const named = drawnFromId === undefined ? {} : { drawnFromId }
      const body: CorrectReading = { id: newId(), typed, reason, time, ...named }
      return send(
        labPath(lab.id, 'readings', readingId, 'corrections'),
        body,
        { testId, slot, corrects: readingId, typed, at: time.eventAt },
        label,
      )
    },
    [lab.id, send],
  )
  /** Takes back what was entered, behind it in its lane: it works while that is still on this device too. */
  const undo = useCallback(
    ({ testId, id: readingId, typed }: Pick<Entry, 'testId' | 'id' | 'typed'>, label: string) => {
      const at = new Date().toISOString()
      const body: WithdrawReading = { id: newId(), time: { eventAt: at, eventFrom: 'now', toldAt: at, sentAt: at } }
      const entry = { testId, slot: undefined, corrects: undefined, undoes: readingId, typed, at }
      return send(labPath(lab.id, 'readings', readingId, 'withdrawal'), body, entry, label)
    },
    [lab.id, send],
  )
  const forget = useCallback(
    async (id: string) => {
      await takeOut(id)
      setMade((before) => before.filter((entry) => entry.id !== id && entry.undoes !== id))
    },
    [takeOut],
  )

  const entries = useMemo(() => {
    const waiting = outbox.entries.filter(({ membershipId }) => membershipId === lab.me.membershipId)
    const read = waiting.flatMap((entry) => entryOf(entry) ?? [])
    const ids = new Set(made.map(({ id }) => id))
    const before = read.filter(({ id }) => !ids.has(id))
    const here = made.map((entry) => {
      const found = read.find(({ id }) => id === entry.id)
      const answer = outbox.answerOf(entry.id) as PostedReading | undefined
      return {
        ...entry,
        ...found,
        slot: entry.slot,
        typed: entry.typed,
        enteredAt: entry.enteredAt,
        state: found?.state ?? outbox.stateOf(entry.id) ?? 'queued',
        answer,
      }
    })
    return [...before, ...here] as readonly Entry[]
  }, [made, outbox, lab.me.membershipId])

  return { post, correct, undo, forget, sendAgain: outbox.sendAgain, entries, online }
}

/** The latest entry for a slot of a test that the record on screen does not show yet. */
export function entryFor(
  entries: readonly Entry[],
  testId: string,
  slot: { readonly stepKey: string; readonly key: string; readonly repeat: number },
  currentId: string | undefined,
): Entry | undefined {
  const undone = undoneIds(entries)
  const latest = entries.findLast(
    (entry) =>
      entry.testId === testId &&
      entry.undoes === undefined &&
      !undone.has(entry.id) &&
      (entry.slot === undefined ? entry.corrects === currentId : slotKey(entry.slot) === slotKey(slot)),
  )
  return latest?.id === currentId ? undefined : latest
}

function useOnline(): boolean {
  const [online, setOnline] = useState(true)
  useEffect(() => {
    const look = () => setOnline(navigator.onLine)
    look()
    window.addEventListener('online', look)
    window.addEventListener('offline', look)
    return () => {
      window.removeEventListener('online', look)
      window.removeEventListener('offline', look)
    }
  }, [])
  return online
}
