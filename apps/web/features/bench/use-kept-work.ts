'use client'

import type { BenchQueue, TestView } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useQueryClient } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { loadQueries } from '#features/loads/loads.queries.ts'
import { useKeptSince } from '#lib/kept-answer.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { beginToHold, keepOnTablet, type KeepOutcome } from '#lib/tablet/tablet-worker.ts'
import { benchQueries } from './bench.queries.ts'
import { answerOfRack, answersOfLogs, benchToKeep, digest, firstOfRacks } from './work-to-keep.ts'

/** The screen has drawn what was asked for before this begins. */
const afterMs = 1_500
/** While acts follow one another the record changes with each; it is fetched for the device once they pause. */
const betweenMs = 15_000
let lastAt = Number.NEGATIVE_INFINITY

/** Keeps on the device what the bench of this person needs without a network; how much of it is there, once it is known. */
export function useKeptWork(queue: BenchQueue | undefined): KeepOutcome | undefined {
  const lab = useLaboratory()
  const client = useQueryClient()
  const away = useKeptSince() !== undefined
  const [outcome, setOutcome] = useState<KeepOutcome>()
  const { id, short } = lab
  const works = lab.may('reading:create')
  useEffect(() => {
    if (queue === undefined || away || !works) return undefined
    let left = false
    const wait = Math.max(afterMs, lastAt + betweenMs - performance.now())
    const timer = setTimeout(() => void keep().catch(() => undefined), wait)
    return () => {
      left = true
      clearTimeout(timer)
    }

    async function keep() {
      lastAt = performance.now()
      // A worker that is installed now has fetched the build before it is ready: the record may be another one by then.
      if (!(await beginToHold()) || left) return
      const due = queue as BenchQueue
      const { pages, answers } = benchToKeep({ id, short }, due)
      const state = digest(due.tasks.map(({ testId, act }) => `${testId}/${act}`).join(' '))
      const racks = []
      for (const task of firstOfRacks(due.tasks)) {
        const view: TestView = await client.fetchQuery(benchQueries.test(id, task.testId))
        racks.push(answerOfRack(id, task, view.method.steps as StepDeclaration[], state) ?? [])
      }
      const logs = answersOfLogs(id, await client.fetchQuery(loadQueries.list(id)), state)
      if (left) return
      const kept = await keepOnTablet(pages, [...answers, ...racks.flat(), ...logs])
      if (!left) setOutcome(kept)
    }
  }, [queue, away, works, id, short, client])
  return outcome
}
