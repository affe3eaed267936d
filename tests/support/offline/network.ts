import { AsyncLocalStorage } from 'node:async_hooks'
import type { Clocks } from './clocks.ts'
import type { Fault } from './plan.ts'

/** What the network has to know of the tab that sends. */
export type SendingTab = { readonly close: () => void }
/** One sending of an entry: what its body said, and how it stood with the clocks. */
export type Attempt = {
  readonly sentAt: string | undefined
  readonly trueAt: number
  readonly ahead: number
}
/** What is sent, as far as the network looks: its id, or that of its first row or value. */
type SentBody = {
  readonly id?: string
  readonly rows?: readonly { readonly id: string }[]
  readonly values?: readonly { readonly id: string }[]
  readonly time: { readonly sentAt?: string }
}
export type Network = ReturnType<typeof createNetwork>

const page = '<!doctype html><title>Welcome</title>'
const html = { 'content-type': 'text/html' }
/** How long a request is on its way. */
const wayMs = 150

/** Which tab's code is running: the stand-in for `fetch` has no other way to know. */
export const tabAtWork = new AsyncLocalStorage<SendingTab>()

/**
 * The network between the browser and the server: real requests, and before or behind each what its entry has coming. `cookie`
 * is of whoever is signed in on the browser when it leaves.
 */
export function createNetwork({
  url,
  clocks,
  cookie,
  fetch,
}: {
  readonly url: string
  readonly clocks: Clocks
  readonly cookie: () => string | undefined
  readonly fetch: typeof globalThis.fetch
}) {
  const coming = new Map<string, Fault[]>()
  const attempts = new Map<string, Attempt[]>()
  const onTheWay: (() => Promise<unknown>)[] = []
  const underWay = new Set<Promise<Response>>()

  async function send(path: string, init: RequestInit): Promise<Response> {
    const body = JSON.parse(String(init.body)) as SentBody
    const id = body.id ?? (body.rows ?? body.values)![0]!.id
    const attempt = { sentAt: body.time.sentAt, trueAt: clocks.trueNow(), ahead: clocks.ahead() }
    attempts.set(id, [...(attempts.get(id) ?? []), attempt])
    const headers = { ...(init.headers as Record<string, string>), cookie: cookie() ?? '' }
    clocks.pass(wayMs)
    const deliver = () => {
      const answer = fetch(url + path, { method: init.method, headers, body: init.body })
      underWay.add(answer)
      return answer.finally(() => underWay.delete(answer))
    }
    const tab = tabAtWork.getStore()!
    const never = new Promise<Response>(() => undefined)
    const lost = new TypeError('fetch failed')
    const fault = coming.get(id)?.shift()
    switch (fault) {
      case undefined:
        return deliver()
      case 'no-network':
        throw lost
      case 'answer-lost':
        await deliver()
        throw lost
      case 'answer-cut': {
        const answer = await deliver()
        return new Response(halfOf(await answer.text()), { status: answer.status, headers: answer.headers })
      }
      case 'bad-gateway':
        return new Response('<h1>502 Bad Gateway</h1>', { status: 502, headers: html })
      case 'bad-gateway-after':
        await deliver()
        return new Response('<h1>504 Gateway Time-out</h1>', { status: 504, headers: html })
      case 'sign-in-page':
        return new Response(page, { status: 200, headers: html })
      case 'closed-before':
        tab.close()
        return never
      case 'closed-after':
        await deliver()
        tab.close()
        return never
      case 'late':
        onTheWay.push(deliver)
        throw lost
    }
  }

  return {
    send: send as typeof globalThis.fetch,
    expect: (id: string, faults: readonly Fault[]) => void coming.set(id, [...faults]),
    attemptsOf: (id: string): readonly Attempt[] => attempts.get(id) ?? [],
    /** What was given up on the device arrives now. */
    deliverLate: () => Promise.all(onTheWay.splice(0).map((deliver) => deliver())),
    /** Until the server has answered everything, also what no tab waits for any more. */
    rest: async () => {
      while (underWay.size > 0) await Promise.all(underWay)
    },
  }
}

/** A body whose connection breaks in the middle. */
function halfOf(text: string): ReadableStream {
  return new ReadableStream({
    start(body) {
      body.enqueue(new TextEncoder().encode(text.slice(0, text.length / 2)))
      body.error(new TypeError('terminated'))
    },
  })
}
