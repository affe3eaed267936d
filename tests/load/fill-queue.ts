import type { BenchQueue } from '@curebook/contract/bench'
import type { Design, DesignSummary, SpecimenRow } from '@curebook/contract/designs'
import type { Schedule } from '@curebook/contract/schedule'
import type { Session } from '@curebook/contract/session'
import { newId } from '../../apps/api/src/platform/uuid.ts'
import { demoSignIns } from './demo-sign-ins.ts'

/** As many specimens as a busy week gives one technician. */
const wanted = 50
/** The most that one plan takes of a test at one content. */
const replicates = 10

/** Somebody of the demonstration laboratory, signed in; asks and posts under their laboratory. */
async function signedIn(url: string, email: string) {
  const headers = { 'content-type': 'application/json', origin: url }
  const answer = await fetch(`${url}/api/session`, {
    method: 'POST',
    headers,
    body: JSON.stringify({ email, password: demoSignIns().password }),
  })
  if (!answer.ok) throw new Error(`${email} could not sign in: ${answer.status} ${await answer.text()}`)
  const cookie = answer.headers
    .getSetCookie()
    .map((line) => line.split(';')[0]!)
    .join('; ')
  async function ask<T>(path: string, body?: object): Promise<T> {
    const asked = await fetch(`${url}${path}`, {
      method: body === undefined ? 'GET' : 'POST',
      headers: { ...headers, cookie, 'idempotency-key': newId() },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    })
    if (!asked.ok) throw new Error(`${path}: ${asked.status} ${await asked.text()}`)
    return (await asked.json()) as T
  }
  const { memberships } = await ask<Session>('/api/session')
  const { labId, membershipId } = memberships[0]!
  const at = (path: string) => `/api/labs/${labId}${path}`
  return { ask: <T>(path: string, body?: object) => ask<T>(at(path), body), membershipId }
}

/**
 * Plans and gives specimens of the design under way until fifty wait for the technician, through the product's own
 * addresses; says how many there are.
 */
export async function fillQueue(url: string): Promise<number> {
  const [engineer, manager, technician] = await Promise.all(
    ['engineer', 'manager', 'technician'].map((name) => signedIn(url, `${name}@ternhollow.example`)),
  )
  const waiting = async () => (await technician!.ask<BenchQueue>('/bench/queue')).tasks.length
  const { items } = await engineer!.ask<{ items: DesignSummary[] }>('/designs')
  const { id } = items.find(({ state }) => state === 'in-work')!
  const { mixes } = await engineer!.ask<Design>(`/designs/${id}`)
  const contents = mixes.map(({ emulsionPercent, waterPercent, fillerPercent, additivePercent }) => ({
    emulsionPercent,
    waterPercent,
    fillerPercent,
    additivePercent,
  }))
  const methods = [{ methodKey: 'wet-track-abrasion-1h', replicates, spares: [] }]
  for (let missing = wanted - (await waiting()); missing > 0; missing -= replicates * contents.length)
    await engineer!.ask(`/designs/${id}/plan`, { contents, methods })
  const { items: specimens } = await engineer!.ask<{ items: SpecimenRow[] }>(`/designs/${id}/specimens`)
  const testIds = specimens.map(({ testId }) => testId)
  const { rows } = await manager!.ask<Schedule>('/schedule')
  const free = rows.filter((row) => row.assignee === null && testIds.includes(row.testId)).map(({ testId }) => testId)
  await manager!.ask('/assignments', { testIds: free, to: technician!.membershipId })
  return waiting()
}
