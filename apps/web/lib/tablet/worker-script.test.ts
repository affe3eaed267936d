import { readFileSync } from 'node:fs'
import { createContext, runInContext } from 'node:vm'
import { expect, test } from 'vitest'

/** `public/tablet-worker.js` as the browser runs it, with caches in memory and a server that answers as told. */
function tablet() {
  const stores = new Map<string, Map<string, Response>>()
  const full = { refuses: false }
  const origin = 'https://lab.example'
  const keyOf = (key: string | Request) => new URL(typeof key === 'string' ? key : key.url, origin).href
  const open = async (name: string) => {
    const store = stores.get(name) ?? new Map<string, Response>()
    stores.set(name, store)
    return {
      match: async (key: string | Request) => store.get(keyOf(key))?.clone(),
      put: async (key: string | Request, answer: Response) => {
        if (full.refuses) throw new DOMException('full', 'QuotaExceededError')
        store.set(keyOf(key), answer)
      },
      delete: async (key: string | Request) => store.delete(keyOf(key)),
      keys: async () => [...store.keys()].map((url) => ({ url })),
    }
  }
  const server = new Map<string, () => Response>()
  const asked: string[] = []
  const atOnce = { now: 0, most: 0 }
  const now = { ms: 1_000_000 }
  const windows: { url: string; focus: () => Promise<void> }[] = []
  const went: string[] = []
  const listeners = new Map<string, (event: unknown) => void>()
  const context = createContext({
    self: {
      location: { origin },
      addEventListener: (kind: string, act: (event: unknown) => void) => listeners.set(kind, act),
      skipWaiting: () => undefined,
      clients: {
        claim: async () => undefined,
        matchAll: async () => windows,
        openWindow: async (place: string) => void went.push(`opened ${place}`),
      },
    },
    caches: { open, delete: async (name: string) => stores.delete(name) },
    fetch: async (key: string | Request) => {
      const path = keyOf(key).slice(origin.length)
      asked.push(path)
      atOnce.now += 1
      atOnce.most = Math.max(atOnce.most, atOnce.now)
      await new Promise((resolve) => setImmediate(resolve))
      atOnce.now -= 1
      const answer = server.get(path)
      if (answer === undefined) throw new TypeError('no network')
      return answer()
    },
    Date: { now: () => now.ms },
    Response,
    Headers,
    URL,
    Promise,
    Array,
    setTimeout: () => 0,
    RegExp,
    Set,
    JSON,
    String,
    Number,
  })
  runInContext(readFileSync(new URL('../../public/tablet-worker.js', import.meta.url), 'utf8'), context)

  const event = () => {
    const work: Promise<unknown>[] = []
    return { work, waitUntil: (one: Promise<unknown>) => void work.push(one) }
  }
  return {
    server,
    asked,
    atOnce,
    full,
    now,
    held: async (name: string) => (await (await open(name)).keys()).map(({ url }) => url.slice(origin.length)),
    /** What a page gets; undefined where the worker leaves it to the browser. */
    async get(path: string, mode = 'cors'): Promise<Response | undefined> {
      const { work, waitUntil } = event()
      let answer: Promise<Response> | undefined
      const request = { method: 'GET', url: origin + path, mode }
      listeners.get('fetch')!({ request, waitUntil, respondWith: (one: Promise<Response>) => (answer = one) })
      const given = await answer
      await Promise.all(work)
      return given
    },
    went,
    /** A page that is open in this browser. */
    openPage: (path: string) =>
      void windows.push({ url: origin + path, focus: async () => void went.push(`focused ${path}`) }),
    /** A touch on a warning that was given on the page of this path. */
    async touch(place: string) {
      const { work, waitUntil } = event()
      listeners.get('notificationclick')!({
        notification: { close: () => went.push('closed'), data: { place } },
        waitUntil,
      })
      await Promise.all(work)
    },
    async keep(pages: readonly string[], answers: readonly string[]) {
      const { work, waitUntil } = event()
      const said: unknown[] = []
      const data = { kind: 'keep', pages, answers: answers.map((path) => ({ path, state: 's' })) }
      listeners.get('message')!({ data, ports: [{ postMessage: (one: unknown) => said.push(one) }], waitUntil })
      await Promise.all(work)
      return said[0]
    },
    async install() {
      const { work, waitUntil } = event()
      listeners.get('install')!({ waitUntil })
      await Promise.all(work)
    },
    async forget() {
      const { work, waitUntil } = event()
      listeners.get('message')!({ data: { kind: 'forget' }, ports: [], waitUntil })
      await Promise.all(work)
    },
  }
}

const queue = '/api/labs/l/bench/queue?whose=mine'
const bench = '/l/th/bench'
const of = (account: string, body: string) => () => new Response(body, { headers: { 'x-account': account } })
const page = (script: string) => () =>
  new Response(`<html><script src="/_next/static/chunks/${script}.js"></script></html>`)
const build = (...scripts: readonly string[]) => {
  const files = scripts.map((script) => `/_next/static/chunks/${script}.js`)
  return [
    ['/_next/static/files.json', () => Response.json(files)],
    ['/no-network.html', () => new Response('No network <a href="/">Bench</a>')],
    ...files.map((path) => [path, () => new Response(path)] as const),
  ] as const
}
const serve = (made: ReturnType<typeof tablet>, ...routes: readonly (readonly [string, () => Response])[]) => {
  for (const [path, answer] of routes) made.server.set(path, answer)
}
const textOf = async (answer: Response | undefined) => `${answer?.status} ${await answer?.text()}`

test('what is due is there without a network, and says when it was kept', async () => {
  const made = tablet()
  serve(made, ...build('a'), [bench, page('a')], [queue, of('ada', 'work')])
  expect(await made.keep([bench], [queue])).toEqual({ there: 2, asked: 2 })
  made.server.clear()
  expect(await textOf(await made.get(bench, 'navigate'))).toContain('200 <html>')
  const kept = await made.get(queue)
  expect(kept?.headers.get('x-kept-at')).toBe('1000000')
  expect(await textOf(kept)).toBe('200 work')
  expect((await made.get('/', 'navigate'))?.status).toBe(302)
  expect(await textOf(await made.get('/l/th/schedule', 'navigate'))).toBe(
    '503 No network <a href="/l/th/bench">Bench</a>',
  )
  expect((await made.get('/api/labs/l/schedule'))?.status).toBeUndefined()
})

test('once installed it has every piece of the build: a dialog that nobody has opened yet opens without a network', async () => {
  const made = tablet()
  serve(made, ...build('a', 'put-in-dialog', 'outbox-dialog'))
  await made.install()
  made.server.clear()
  for (const piece of ['put-in-dialog', 'outbox-dialog'])
    expect(await textOf(await made.get(`/_next/static/chunks/${piece}.js`))).toBe(
      `200 /_next/static/chunks/${piece}.js`,
    )
})

test('the build comes in few connections: a browser has six to a server, and pages that somebody works with need some', async () => {
  const made = tablet()
  serve(made, ...build('a', ...Array.from({ length: 20 }, (_, index) => `piece-${index}`)))
  await made.install()
  expect(made.atOnce.most).toBe(3)
})

test('without a network, or without room, it is installed all the same; what came stays, and the rest comes with the work', async () => {
  const made = tablet()
  await made.install()
  serve(made, ...build('a', 'b', 'c'))
  made.server.delete('/_next/static/chunks/c.js')
  await made.install()
  const before = made.asked.length
  made.full.refuses = true
  await made.install()
  made.full.refuses = false
  serve(made, ...build('a', 'b', 'c'), [bench, page('c')], [queue, of('ada', 'work')])
  expect(await made.keep([bench], [queue])).toEqual({ there: 2, asked: 2 })
  expect(made.asked.slice(before)).not.toContain('/_next/static/chunks/a.js')
})

test('the ovens with their loads and logs are there without a network, as they were', async () => {
  const made = tablet()
  const ovens = ['/l/th/ovens', '/api/labs/l/loads', '/api/labs/l/instruments/ov1/conditions'] as const
  serve(made, ...build('a'), [ovens[0], page('a')], [ovens[1], of('ada', 'loads')], [ovens[2], of('ada', 'log')])
  expect(await made.keep(ovens.slice(0, 1), ovens.slice(1))).toEqual({ there: 3, asked: 3 })
  made.server.clear()
  expect(await textOf(await made.get(ovens[0], 'navigate'))).toContain('200 <html>')
  expect(await textOf(await made.get(ovens[1]))).toBe('200 loads')
  expect(await textOf(await made.get(ovens[2]))).toBe('200 log')
  expect((await made.get('/api/labs/l/instruments/ov1/checks'))?.status).toBeUndefined()
})

test('an answer of another person ends all that was held; so does signing out, and a session that has ended', async () => {
  const made = tablet()
  const fill = async () => {
    serve(made, ...build('a'), [bench, page('a')], [queue, of('ada', 'work of Ada')], ['/api/session', of('ada', '')])
    // The round in which another person is met ends there; the next one is theirs.
    await made.keep([bench], [queue, '/api/session'])
    await made.keep([bench], [queue, '/api/session'])
    expect(await made.held('curebook-answers')).toHaveLength(2)
  }
  await fill()
  made.server.set('/api/session', of('bram', ''))
  await made.get('/api/session')
  expect(await made.held('curebook-pages')).toEqual([])
  expect(await made.held('curebook-answers')).toEqual(['/api/session'])
  made.server.clear()
  expect((await made.get(queue))?.type).toBe('error')
  await fill()
  await made.forget()
  expect(await made.held('curebook-answers')).toEqual([])
  await fill()
  made.server.set(queue, () => new Response('', { status: 401 }))
  expect((await made.get(queue))?.status).toBe(401)
  expect(await made.held('curebook-answers')).toEqual([])
})

test('a new build is whole before the pages of the old one go, and an open old page still finds its files', async () => {
  const made = tablet()
  serve(made, ...build('a'), [bench, page('a')], [queue, of('ada', 'work')])
  await made.keep([bench], [queue])
  // The new build breaks off in the middle: nothing of the old one is touched.
  serve(made, ...build('b', 'c'), [bench, page('b')])
  made.server.delete('/_next/static/chunks/c.js')
  await made.keep([bench], [queue])
  made.server.clear()
  expect(await textOf(await made.get(bench, 'navigate'))).toContain('/a.js')
  expect((await made.get('/_next/static/chunks/a.js'))?.status).toBe(200)
  serve(made, ...build('b', 'c'), [bench, page('b')], [queue, of('ada', 'work')])
  expect(await made.keep([bench], [queue])).toEqual({ there: 2, asked: 2 })
  made.server.clear()
  expect(await textOf(await made.get(bench, 'navigate'))).toContain('/b.js')
  for (const file of ['a', 'b', 'c']) expect((await made.get(`/_next/static/chunks/${file}.js`))?.status).toBe(200)
  serve(made, ...build('d'), [bench, page('d')], [queue, of('ada', 'work')])
  await made.keep([bench], [queue])
  expect(await made.held('curebook-files')).not.toContain('/_next/static/chunks/a.js')
})

test('a page whose files are not all here is not kept', async () => {
  const made = tablet()
  serve(made, ...build('a'), [bench, page('later')], [queue, of('ada', 'work')])
  expect(await made.keep([bench], [queue])).toEqual({ there: 1, asked: 2 })
  await made.get(bench, 'navigate')
  expect(await made.held('curebook-pages')).toEqual([])
})

test('a device that is full keeps nothing and disturbs nothing', async () => {
  const made = tablet()
  made.full.refuses = true
  serve(made, ...build('a'), [bench, page('a')], [queue, of('ada', 'work')])
  expect(await textOf(await made.get('/_next/static/chunks/a.js'))).toBe('200 /_next/static/chunks/a.js')
  expect(await textOf(await made.get(queue))).toBe('200 work')
  expect((await made.get(bench, 'navigate'))?.status).toBe(200)
})

test('what answers for a server that is gone is no answer, and only what is there counts as held', async () => {
  const made = tablet()
  serve(made, ...build('a'), [bench, page('a')], [queue, of('ada', 'work')])
  await made.keep([bench], [queue])
  for (const path of [queue, bench]) made.server.set(path, () => new Response('gateway', { status: 502 }))
  expect(await textOf(await made.get(queue))).toBe('200 work')
  expect(await textOf(await made.get(bench, 'navigate'))).toContain('/a.js')
  const busy = tablet()
  serve(busy, ...build('a'), [queue, () => new Response('', { status: 429 })], [bench, page('a')])
  expect(await busy.keep([bench], [queue])).toEqual({ there: 0, asked: 2 })
})

test('nothing older than a session is shown; a clock that was set back hides nothing', async () => {
  const made = tablet()
  serve(made, ...build('a'), [queue, of('ada', 'work')])
  await made.keep([], [queue])
  made.server.clear()
  made.now.ms -= 500_000
  expect(await textOf(await made.get(queue))).toBe('200 work')
  made.now.ms += 500_000 + 12 * 3_600_000 + 1
  expect((await made.get(queue))?.type).toBe('error')
})

test('a touched warning leads to the page that gave it, else to an open bench, else to a new page', async () => {
  const made = tablet()
  const other = '/l/north/bench/tests/1'
  await made.touch(bench)
  made.openPage('/l/north/people')
  await made.touch(bench)
  made.openPage(other)
  await made.touch(bench)
  made.openPage(bench)
  await made.touch(bench)
  const opened = ['closed', `opened ${bench}`]
  expect(made.went).toEqual([...opened, ...opened, 'closed', `focused ${other}`, 'closed', `focused ${bench}`])
})
