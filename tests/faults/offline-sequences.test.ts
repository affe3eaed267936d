import 'fake-indexeddb/auto'
import fc from 'fast-check'
import { setTimeout } from 'node:timers/promises'
import type pg from 'pg'
import { afterAll, beforeAll, expect, test, vi } from 'vitest'
import { startTestApp, type TestApp } from '../support/app.ts'
import { connect } from '../support/as-login.ts'
import { faultsOf } from '../support/offline/faults-of.ts'
import { makeBench, type Bench } from '../support/offline/people.ts'
import { sequences, type Sequence } from '../support/offline/plan.ts'
import { readLedger, readRecord } from '../support/offline/read-record.ts'
import { runSequence } from '../support/offline/run-sequence.ts'

// Nothing here is measured by the clock: these only end what hangs, and one sequence that does is named.
vi.setConfig({ testTimeout: 1_800_000 })
const longestMs = 180_000

const count = 200
/** `CUREBOOK_SEQUENCE=seed/n` plays one again; without it the same 200 are played each time. */
const [seed, only] = (process.env.CUREBOOK_SEQUENCE ?? '20261128').split('/').map(Number) as [number, number?]
const planned = fc
  .sample(sequences, { seed, numRuns: count })
  .map((sequence, n): [number, Sequence] => [n, sequence])
  .filter(([n]) => only === undefined || n === only)

let testApp: TestApp
let bench: Bench
let owner: pg.Client
const realFetch = globalThis.fetch

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  const lanes = planned.flatMap(([, sequence]) => sequence.lanes)
  const most = (kind: string) => lanes.filter((lane) => lane.test === kind).length
  bench = await makeBench(testApp, Math.max(most('batch'), most('disc')))
  owner = await connect(testApp.ownerUrl)
})
afterAll(async () => {
  vi.unstubAllGlobals()
  await owner?.end()
  await testApp?.close()
})

/** Fails when a sequence has not come to its end; of one that has, nobody listens any more. */
const hanging = () => setTimeout(longestMs, undefined, { ref: false }).then(() => Promise.reject(new Error('It hangs')))

test('whatever befalls the device and the network, every reading arrives once, in order, under its own name', async () => {
  const { people, takeTest } = bench
  const stub = (globals: Record<string, unknown>) => {
    for (const [key, value] of Object.entries(globals)) vi.stubGlobal(key, value)
  }
  const failed: string[] = []
  for (const [n, sequence] of planned) {
    const played = runSequence(testApp, bench, sequence, takeTest, stub, realFetch)
    const outcome = await Promise.race([played, hanging()]).catch((cause: unknown) => {
      throw new Error(`CUREBOOK_SEQUENCE=${seed}/${n} ended in the middle: ${String(cause)}`, { cause })
    })
    const testIds = outcome.lanes.map(({ testId }) => testId)
    const ids = outcome.lanes.flatMap(({ entered }) => entered.map(({ id }) => id))
    const [rows, ledger] = [await readRecord(owner, testIds, ids), await readLedger(owner, [...ids, bench.loggedId])]
    const found = faultsOf(outcome, rows, ledger, people.elsewhere.actor.membershipId)
    if (found.length > 0)
      failed.push(`CUREBOOK_SEQUENCE=${seed}/${n}\n${found.join('\n')}\n${JSON.stringify(sequence)}`)
  }
  expect(failed).toEqual([])
  vi.unstubAllGlobals()
  const verdict = await testApp.services.ledger.verify(bench.lab.people.manager.actor, {})
  expect(verdict).toMatchObject({ whole: true, firstBreak: null })
})
