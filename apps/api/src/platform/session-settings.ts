import type { AnyActor } from './actor.ts'

/** Sets what the row-level policies read, until the end of the transaction. */
export const settingsSql = `select set_config('app.lab', $1, true), set_config('app.member', $2, true), set_config('app.account', $3, true),
  set_config('app.client', $4, true), set_config('app.roles', $5, true)`

export function settingsOf(actor: AnyActor): string[] {
  if (actor.kind === 'system') return [actor.labId, '', '', '', '']
  return [actor.labId, actor.membershipId, actor.accountId, actor.clientId ?? '', actor.roles.join(',')]
}
