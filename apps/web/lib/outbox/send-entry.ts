import { postJson } from '../api-client.ts'
import type { OutboxEntry } from './outbox-entry.ts'
import { withSendingTime } from './sending-time.ts'

/** Sends an entry under the name of who made it: whoever is signed in by then may be somebody else. */
export function sendEntry({ path, body, membershipId }: Pick<OutboxEntry, 'path' | 'body' | 'membershipId'>) {
  return postJson(path, withSendingTime(body, new Date()), { membershipId })
}
