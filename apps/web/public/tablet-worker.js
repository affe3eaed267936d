// What a tablet holds so that the bench goes on without a network: the pages of the bench, the answers that they were drawn
// from, and the files of the builds they need. Readings are not here: they wait in a store of their own until the server has
// them. It is the browser's own script, outside the build, so that an old page and a new one are served by the same worker.
// What this worker keeps is a help: whatever fails in keeping, the page gets the server's answer as if nobody stood between.

const PAGES = 'curebook-pages'
const ANSWERS = 'curebook-answers'
const FILES = 'curebook-files'
const ABOUT = 'curebook-about'

/** Nothing older is shown: a session lasts no longer either. */
const LONGEST_MS = 12 * 60 * 60 * 1000
/** A page or answer that was kept so recently, of something that did not move on, is not fetched again. */
const FRESH_MS = 30 * 60 * 1000
/** What answers for a server that is not there, as `lib/server-away.ts` has it for the pages. */
const GATEWAY = [502, 503, 504]

const NO_NETWORK = '/no-network.html'
const benchPage = /^\/l\/[^/]+\/(bench|ovens)(\/|$)/
const benchAnswer = new RegExp(
  '^/api/(session|labs/[^/]+(/(bench/(queue|rack|put-in|casting/[^/]+)|tests/[^/]+|loads|instruments/[^/]+/conditions|notices|device/people))?)$',
)

/** Rises whenever what is held is given up: what was asked for before then is not kept any more. */
let turn = 0

/** So long installing waits for the files of the build, ms (our own choice, no source); what is missing then comes with the work. */
const INSTALL_MS = 60_000
/**
 * So many files are fetched at a time (our own choice, no source): a browser opens six connections to a server over HTTP/1.1,
 * and the pages that somebody works with go before what may be wanted later.
 */
const AT_A_TIME = 3

self.addEventListener('install', (event) => {
  self.skipWaiting()
  // Dialogs and other pieces that no page has asked for yet: the network may go before anybody opens one.
  const late = new Promise((resolve) => setTimeout(resolve, INSTALL_MS))
  event.waitUntil(Promise.race([filesKept().catch(() => false), late]))
})
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()))

self.addEventListener('message', (event) => {
  const { kind, pages = [], answers = [] } = event.data ?? {}
  const work = kind === 'forget' ? forget() : kind === 'keep' ? keepAll(pages, answers) : undefined
  if (work === undefined) return
  const said = work.catch(() => undefined).then((told) => event.ports[0]?.postMessage(told))
  event.waitUntil(said)
})

/** A warning that was given by a page: it leads back to the bench, on the page that is open or on a new one. */
self.addEventListener('notificationclick', (event) => {
  event.notification.close()
  event.waitUntil(backTo(event.notification.data?.place ?? '/'))
})

self.addEventListener('fetch', (event) => {
  const { request } = event
  const address = new URL(request.url)
  if (request.method !== 'GET' || address.origin !== self.location.origin) return
  if (address.pathname.startsWith('/_next/static/')) event.respondWith(fileFirst(event))
  else if (request.mode === 'navigate') event.respondWith(pageOf(event, address))
  else if (benchAnswer.test(address.pathname)) event.respondWith(answerOf(event))
})

async function backTo(place) {
  const open = await self.clients.matchAll({ type: 'window' })
  const pathOf = ({ url }) => new URL(url).pathname
  const page = open.find((one) => pathOf(one) === place) ?? open.find((one) => benchPage.test(pathOf(one)))
  if (page === undefined) await self.clients.openWindow(place)
  else await page.focus()
}

/** Files of a build never change under their name. */
async function fileFirst(event) {
  const path = new URL(event.request.url).pathname
  const kept = await inCache(FILES, path)
  if (kept !== undefined) return kept
  const answer = await fetch(event.request)
  if (answer.ok) later(event, put(FILES, path, answer.clone()))
  return answer
}

async function pageOf(event, address) {
  const before = turn
  const answer = await fetch(event.request).catch(() => undefined)
  if (answer !== undefined && !GATEWAY.includes(answer.status)) {
    if (answer.ok && !answer.redirected && benchPage.test(address.pathname))
      later(event, keepPage(address.pathname, answer.clone(), before))
    return answer
  }
  const kept = await found(PAGES, address.pathname)
  if (kept !== undefined) return kept
  // What a tablet opens an installed Curebook with: there is one bench on it.
  const bench = address.pathname === '/' ? await keptBench() : undefined
  if (bench !== undefined) return Response.redirect(bench, 302)
  if (answer !== undefined) return answer
  const said = await inCache(FILES, NO_NETWORK)
  if (said === undefined) return Response.error()
  const home = /^\/l\/[^/]+/.exec(address.pathname)
  return new Response((await said.text()).replace('href="/"', `href="${home === null ? '/' : `${home[0]}/bench`}"`), {
    status: 503,
    headers: said.headers,
  })
}

async function keptBench() {
  const kept = await caches.open(PAGES).then(
    (cache) => cache.keys(),
    () => [],
  )
  return kept.map(({ url }) => url).find((url) => /^\/l\/[^/]+\/bench$/.test(new URL(url).pathname))
}

async function answerOf(event) {
  const before = turn
  const { url } = event.request
  const answer = await fetch(event.request).catch(() => undefined)
  if (answer === undefined || GATEWAY.includes(answer.status))
    return (await found(ANSWERS, url)) ?? answer ?? Response.error()
  if (answer.status === 401) await forget().catch(() => undefined)
  else if (answer.status === 403 || answer.status === 404) later(event, remove(ANSWERS, url))
  else if (answer.ok) later(event, keepAnswer(url, answer.clone(), { before }))
  return answer
}

/**
 * Puts an answer away, with when, and with the state of the thing it tells of. The server says of each answer whose it is
 * (`x-account`): the first one of another person ends all that was held for the one before.
 */
async function keepAnswer(url, answer, { before, state = '' }) {
  const account = answer.headers.get('x-account')
  const body = await answer.arrayBuffer()
  if (account === null || before !== turn) return
  const owner = await (await inCache(ABOUT, '/account'))?.text()
  if (owner !== account) {
    if (owner !== undefined) await forget()
    await put(ABOUT, '/account', new Response(account))
  }
  await put(ANSWERS, url, stamped(answer, body, state))
}

/** A page without one of its files would be a page that does nothing: it is kept only with all of them. */
async function keepPage(path, answer, before) {
  const text = await answer.text()
  const needed = new Set(text.match(/\/_next\/static\/[^"'\\\s?]+\.(?:js|css)/g) ?? [])
  const there = new Set(await pathsIn(FILES))
  if ([...needed].some((file) => !there.has(file))) return false
  if (before !== turn || (await inCache(ABOUT, '/account')) === undefined) return false
  await put(PAGES, path, stamped(answer, text, ''))
  return true
}

function stamped(answer, body, state) {
  const headers = new Headers(answer.headers)
  headers.set('x-kept-at', String(Date.now()))
  headers.set('x-kept-state', state)
  for (const name of ['content-encoding', 'content-length', 'set-cookie']) headers.delete(name)
  return new Response(body, { status: answer.status, headers })
}

/** A clock that was set back since says nothing of the age: what is there is better than an empty bench. */
async function found(place, key) {
  const kept = await inCache(place, key)
  return kept === undefined || Date.now() - Number(kept.headers.get('x-kept-at')) > LONGEST_MS ? undefined : kept
}

async function forget() {
  turn += 1
  await Promise.all([PAGES, ANSWERS, ABOUT].map((name) => caches.delete(name)))
}

/** What is due, in the order given, until the network is gone; says how much of it is on the tablet then. */
async function keepAll(pages, answers) {
  const begun = turn
  let there = 0
  let reached = true
  for (const { path, state } of answers) {
    const url = new URL(path, self.location.origin).href
    if (reached && begun === turn && !(await isFresh(ANSWERS, url, state))) {
      const answer = await fetch(url, { credentials: 'same-origin' }).catch(() => undefined)
      if (answer?.status === 401) await forget()
      reached = answer !== undefined && ![401, 429, ...GATEWAY].includes(answer.status)
      if (answer?.ok) await keepAnswer(url, answer, { before: begun, state })
    }
    if ((await found(ANSWERS, url)) !== undefined) there += 1
  }
  reached &&= await filesKept()
  for (const path of pages) {
    if (reached && begun === turn && !(await isFresh(PAGES, path, ''))) {
      const answer = await fetch(path, { credentials: 'same-origin' }).catch(() => undefined)
      reached = answer !== undefined && ![429, ...GATEWAY].includes(answer.status)
      if (answer?.ok && !answer.redirected) await keepPage(path, answer, begun)
    }
    if ((await found(PAGES, path)) !== undefined) there += 1
  }
  return { there, asked: pages.length + answers.length }
}

async function isFresh(place, key, state) {
  const kept = await found(place, key)
  return (
    kept !== undefined &&
    kept.headers.get('x-kept-state') === state &&
    Date.now() - Number(kept.headers.get('x-kept-at')) < FRESH_MS
  )
}

let keeping
/** Asked for again while they come, they are fetched once. */
function filesKept() {
  keeping ??= keepFiles().finally(() => {
    keeping = undefined
  })
  return keeping
}

/**
 * The files of this build, once; says whether all of them are there. Those of the build before stay, for pages that are open
 * still; what is older goes once the new ones are whole, and with it the pages that were drawn with it.
 */
async function keepFiles() {
  const listed = await fetch('/_next/static/files.json', { cache: 'no-cache' }).catch(() => undefined)
  if (listed === undefined || !listed.ok) return false
  const wanted = [...(await listed.json()), NO_NETWORK]
  const there = new Set(await pathsIn(FILES))
  const missing = wanted.filter((path) => !there.has(path))
  let whole = true
  const fetchNext = async () => {
    for (let path = missing.shift(); path !== undefined && whole; path = missing.shift()) {
      const answer = await fetch(path, { priority: 'low' }).catch(() => undefined)
      if (answer === undefined || !answer.ok) whole = false
      else await put(FILES, path, answer)
    }
  }
  await Promise.all(Array.from({ length: AT_A_TIME }, fetchNext))
  if (!whole) return false
  const lists = (await (await inCache(FILES, '/lists'))?.json()) ?? { now: [], before: [] }
  if (lists.now.join() === wanted.join()) return true
  await put(FILES, '/lists', new Response(JSON.stringify({ now: wanted, before: lists.now })))
  await caches.delete(PAGES)
  const needed = new Set([...wanted, ...lists.now, '/lists'])
  for (const path of await pathsIn(FILES)) if (!needed.has(path)) await remove(FILES, path)
  const fresh = await fetch(NO_NETWORK, { cache: 'no-cache' }).catch(() => undefined)
  if (fresh?.ok) await put(FILES, NO_NETWORK, fresh)
  return true
}

const put = async (place, key, answer) => (await caches.open(place)).put(key, answer)
const remove = async (place, key) => (await caches.open(place)).delete(key)
const inCache = (place, key) =>
  caches.open(place).then(
    (cache) => cache.match(key),
    () => undefined,
  )
const pathsIn = async (place) => (await (await caches.open(place)).keys()).map(({ url }) => new URL(url).pathname)
/** Keeping goes on behind the answer, and a device that is full keeps nothing. */
const later = (event, work) => event.waitUntil(work.catch(() => undefined))
