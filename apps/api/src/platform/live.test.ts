import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest'
import { startTestApp, type TestApp } from '../../../../tests/support/app.ts'
import { makeLaboratory, type PersonKey, type TestLaboratory } from '../../../../tests/support/factories/laboratory.ts'
import { liveRoutes } from './live.routes.ts'
import { newId } from './uuid.ts'

let testApp: TestApp
let another: Awaited<ReturnType<TestApp['startAnother']>>
let lab: TestLaboratory
beforeAll(async () => {
  testApp = await startTestApp({ sealing: true })
  another = await testApp.startAnother()
})
afterAll(async () => {
  await another.close()
  await testApp.close()
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
  await testApp.services.sealer.sealNow()
})

type Heard = { id: string; seq: number; topics: string[] }
const streams: AbortController[] = []
afterEach(() => streams.splice(0).forEach((stream) => stream.abort()))

/** Opens a stream; what it hears grows in `events`. */
async function listen(
  who: PersonKey,
  { url = testApp.url, lastEventId, under = '' }: { url?: string; lastEventId?: number; under?: string } = {},
) {
  const controller = new AbortController()
  streams.push(controller)
  const answer = await fetch(`${url}${lab.path(`${under}/events`)}`, {
    signal: controller.signal,
    headers: {
      cookie: lab.people[who].cookie,
      ...(lastEventId !== undefined && { 'last-event-id': String(lastEventId) }),
    },
  })
  expect(answer.status).toBe(200)
  expect(answer.headers.get('content-type')).toContain('text/event-stream')
  const heard = { events: [] as Heard[], text: '', ended: false }
  void (async () => {
    const decoder = new TextDecoder()
    for await (const chunk of answer.body!) {
      heard.text += decoder.decode(chunk as Uint8Array, { stream: true })
      heard.events = [...heard.text.matchAll(/id: (\d+)\ndata: (.*)\n\n/g)].map(([, id, data]) => ({
        id: id!,
        ...JSON.parse(data!),
      }))
    }
    heard.ended = true
  })().catch(() => undefined)
  return heard
}

const change = (topics: string[], clientId?: string) =>
  testApp.services.laboratory.inLaboratory(lab.people.technician.actor, async (tx) =>
    tx.record({
      action: 'reading:create',
      subjectKind: 'test',
      subjectId: newId(),
      topics,
      clientId: clientId ?? null,
    }),
  )
const soon = { timeout: 10_000, interval: 20 }

describe('live events', () => {
  test('reach people of the laboratory at another process, and name what changed', async () => {
    const here = await listen('engineer')
    const there = await listen('auditor', { url: another.url })
    await change(['test:1', 'bench'])
    for (const stream of [here, there])
      await vi.waitFor(
        () => expect(stream.events.flatMap(({ topics }) => topics).sort()).toEqual(['bench', 'test:1']),
        soon,
      )
    expect(here.events[0]).toMatchObject({ id: String(here.events[0]!.seq) })
  })

  test('do not leave the laboratory', async () => {
    const elsewhere = await makeLaboratory(testApp)
    const mine = await listen('manager')
    await testApp.services.laboratory.inLaboratory(elsewhere.people.manager.actor, async (tx) =>
      tx.record({
        action: 'laboratory:update',
        subjectKind: 'laboratory',
        subjectId: elsewhere.labId,
        topics: ['laboratory'],
      }),
    )
    await testApp.services.sealer.sealNow()
    await change(['bench'])
    await vi.waitFor(() => expect(mine.events).toHaveLength(1), soon)
    expect(mine.events[0]!.topics).toEqual(['bench'])
  })

  test('of another client’s work never reach a client, and of their own say only that something changed', async () => {
    const stream = await listen('client')
    await change(['project:secret', 'report:1'], lab.otherClientId)
    await change(['bench', 'test:9'])
    await testApp.services.sealer.sealNow()
    await change(['project:own'], lab.clientId)
    await vi.waitFor(() => expect(stream.events.length).toBeGreaterThan(0), soon)
    expect(stream.events.map(({ topics }) => topics)).toEqual([[`client:${lab.clientId}`]])
    expect(stream.text).not.toContain('secret')
    expect(stream.text).not.toContain(lab.otherClientId)
  })

  test('that were missed are told again from the last one heard', async () => {
    const first = await listen('technician')
    await change(['one'])
    await vi.waitFor(() => expect(first.events).toHaveLength(1), soon)
    await change(['two'])
    await change(['three'])
    await testApp.services.sealer.sealNow()
    const again = await listen('technician', { url: another.url, lastEventId: first.events[0]!.seq })
    await vi.waitFor(() => expect(again.events.flatMap(({ topics }) => topics).sort()).toEqual(['three', 'two']), soon)
  })

  test('that were missed are told again also where none was heard before the line broke', async () => {
    const first = await listen('technician')
    await vi.waitFor(() => expect(first.text).toMatch(/^id: \d+$/m), soon)
    const startedAt = Number(/^id: (\d+)$/m.exec(first.text)![1])
    streams.splice(0).forEach((stream) => stream.abort())
    await change(['missed'])
    await testApp.services.sealer.sealNow()
    const again = await listen('technician', { lastEventId: startedAt })
    await vi.waitFor(() => expect(again.events.flatMap(({ topics }) => topics)).toEqual(['missed']), soon)
  })

  test('go on after the connection to the database was cut', async () => {
    const stream = await listen('technician')
    const { Client } = await import('pg')
    const owner = new Client({ connectionString: testApp.ownerUrl })
    await owner.connect()
    await owner.query(
      "select pg_terminate_backend(pid) from pg_stat_activity where application_name in ('curebook live', 'curebook sealer')",
    )
    await owner.end()
    await change(['after the cut'])
    await vi.waitFor(() => expect(stream.events.flatMap(({ topics }) => topics)).toContain('after the cut'), soon)
  })

  test('end when the session ends, or when roles change', async () => {
    const third = await testApp.startAnother((app) => {
      void app.register(liveRoutes, {
        live: testApp.services.live,
        identify: testApp.services.identify,
        recheckMs: 50,
        prefix: '/api/labs/:lab/rechecked',
      })
    })
    const [technician, engineer, auditor] = [
      await listen('technician', { url: third.url, under: '/rechecked' }),
      await listen('engineer', { url: third.url, under: '/rechecked' }),
      await listen('auditor', { url: third.url, under: '/rechecked' }),
    ]
    await lab.as('technician').delete('/api/session').expect(204)
    await lab
      .as('manager')
      .patch(lab.path(`/people/${lab.people.engineer.actor.membershipId}`))
      .set('if-match', '"1"')
      .send({ roles: ['auditor'] })
      .expect(200)
    await vi.waitFor(() => expect([technician.ended, engineer.ended]).toEqual([true, true]), soon)
    expect(technician.text).toContain('event: ended')
    expect(auditor.ended).toBe(false)
    await third.close()
  })

  test('of somebody who is gone before they begin are not kept', async () => {
    const [asked, ended] = [vi.fn(), vi.fn()]
    let leave = () => {}
    const gone = new Promise<void>((resolve) => (leave = resolve))
    const subscribe = async () => {
      asked()
      await gone
      return { from: 1, end: ended }
    }
    const third = await testApp.startAnother((app) => {
      app.addHook('onRequest', async (_, { raw }) => void raw.on('close', leave))
      void app.register(liveRoutes, {
        live: { ...testApp.services.live, subscribe },
        identify: testApp.services.identify,
        prefix: '/api/labs/:lab/slow',
      })
    })
    const controller = new AbortController()
    const answer = fetch(`${third.url}${lab.path('/slow/events')}`, {
      signal: controller.signal,
      headers: { cookie: lab.people.technician.cookie },
    })
    await vi.waitFor(() => expect(asked).toHaveBeenCalled(), soon)
    controller.abort()
    await expect(answer).rejects.toThrow()
    await vi.waitFor(() => expect(ended).toHaveBeenCalledOnce(), soon)
    await third.close()
  })

  test('need a session, and end when the server closes', async () => {
    expect((await fetch(`${testApp.url}${lab.path('/events')}`)).status).toBe(401)
    const third = await testApp.startAnother()
    const stream = await listen('technician', { url: third.url })
    await third.close()
    await vi.waitFor(() => expect(stream.ended).toBe(true), soon)
  })
})
