import { afterEach, expect, test, vi } from 'vitest'
import { finishSignOut, signOutHere } from './pending-sign-out.ts'

afterEach(() => vi.unstubAllGlobals())

function device() {
  const kept = new Map<string, string>()
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
  } as Storage
}
const server = (answer: () => Promise<Response>) => {
  const asked = vi.fn(answer)
  vi.stubGlobal('fetch', asked)
  return asked
}
const gone = () => Promise.reject(new TypeError('no network'))
const says = (status: number) => () => Promise.resolve(Response.json({ title: 'No' }, { status }))
const ended = () => Promise.resolve(new Response(null, { status: 204 }))

test('signed out without a network, the server is told before anything else is asked', async () => {
  const storage = device()
  server(gone)
  await signOutHere(storage)
  await expect(finishSignOut(storage)).rejects.toMatchObject({ status: 0 })
  const told = server(ended)
  await finishSignOut(storage)
  expect(told.mock.calls.map((call: unknown[]) => [call[0], (call[1] as RequestInit).method])).toEqual([
    ['/api/session', 'DELETE'],
  ])
  await finishSignOut(storage)
  expect(told).toHaveBeenCalledTimes(1)
})

test('with a network nothing is left to tell, and a session that is no more is ended', async () => {
  const storage = device()
  const told = server(ended)
  await signOutHere(storage)
  await finishSignOut(storage)
  expect(told).toHaveBeenCalledTimes(1)
  server(gone)
  await signOutHere(storage)
  server(() => Promise.resolve(Response.json({ title: 'Sign in' }, { status: 401 })))
  await finishSignOut(storage)
  await finishSignOut(storage)
})

test('what answers for a server that is gone is no answer; a session that is over is signed out; a refusal is told', async () => {
  const storage = device()
  server(says(502))
  await signOutHere(storage)
  const told = server(ended)
  await finishSignOut(storage)
  expect(told).toHaveBeenCalledTimes(1)
  server(says(401))
  await signOutHere(storage)
  server(says(500))
  await expect(signOutHere(storage)).rejects.toMatchObject({ status: 500 })
  await finishSignOut(storage)
})
