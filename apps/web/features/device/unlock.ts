import type { Unlock } from '@curebook/contract/device'
import { postJson } from '#lib/api-client.ts'
import { ApiProblem } from '#lib/api-problem.ts'
import { isServerAway } from '#lib/server-away.ts'
import { forgetPin, judgePin, rememberPin } from '#lib/tablet/pin-here.ts'

/**
 * Opens the locked screen: the server says whether, and where it is away a PIN is judged by what this device keeps of it.
 * @throws ApiProblem where it stays locked
 */
export async function unlock(storage: Storage, membershipId: string, body: Unlock): Promise<void> {
  try {
    await postJson<void>('/api/session/unlock', body)
  } catch (cause) {
    if (!(cause instanceof ApiProblem) || !('pin' in body)) throw cause
    if (!isServerAway(cause)) {
      // The server knows better than this device what opens here; a fault of its own says nothing of the PIN.
      if (cause.status < 500) forgetPin(storage, membershipId)
      throw cause
    }
    const verdict = await judgePin(storage, membershipId, body.pin)
    if (verdict === 'unknown') throw cause
    if (verdict === 'wrong') throw wrongHere()
    return
  }
  if ('pin' in body) await rememberPin(storage, membershipId, body.pin).catch(() => undefined)
}

function wrongHere(): ApiProblem {
  const sentence = 'This is not the PIN that was last used here. The server cannot be reached to ask it.'
  return new ApiProblem('wrong-pin', 401, sentence, '', [{ path: 'pin', message: sentence }])
}
