import { deleteJson } from './api-client.ts'
import { ApiProblem } from './api-problem.ts'
import { isServerAway } from './server-away.ts'

/** Somebody signed out here while the server could not be told: the first thing it hears from this browser is that. */
const storedAs = 'curebook-signing-out'

/** No session is as good as an ended one. */
const isEnded = (cause: unknown) => cause instanceof ApiProblem && cause.status === 401

/** Ends the session at the server; without a network it is ended here at once and there as soon as it can be told. */
export async function signOutHere(storage: Storage = localStorage): Promise<void> {
  try {
    await deleteJson<void>('/api/session')
  } catch (cause) {
    if (isServerAway(cause)) return void storage.setItem(storedAs, 'yes')
    if (!isEnded(cause)) throw cause
  }
  storage.removeItem(storedAs)
}

/**
 * Before anything is asked in a session that was ended here, and before somebody else signs in over it: it is that session
 * which ends, not theirs. Throws while the server still cannot be told.
 */
export async function finishSignOut(storage: Storage = localStorage): Promise<void> {
  if (storage.getItem(storedAs) === null) return
  await deleteJson<void>('/api/session').catch((cause: unknown) => {
    if (!isEnded(cause)) throw cause
  })
  storage.removeItem(storedAs)
}
