import { postJson, type RequestOptions } from './api-client.ts'
import { withSendingTime } from './outbox/sending-time.ts'

/**
 * Posts what a person entered, under their name: a page that slept while another person took over would else write it under
 * theirs. The time of this sending is told anew each time.
 */
export function postAs<Answer>(
  person: { readonly membershipId: string },
  path: string,
  body: unknown,
  options: Omit<RequestOptions, 'membershipId'> = {},
): Promise<Answer> {
  return postJson<Answer>(path, withSendingTime(body, new Date()), { ...options, membershipId: person.membershipId })
}
