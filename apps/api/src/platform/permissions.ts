import type { Role } from '@curebook/contract/common'

/**
 * Who may do what: one line an action, read by every route (`config: { action }`). `public` needs no sign-in, `signed-in`
 * needs an account and no laboratory; the others need one of the named roles in the laboratory of the address.
 * The auditor reads all and writes nothing; a client reaches progress and approved reports only.
 */
export const permissions = {
  'web:page': 'public',
  'health:read': 'public',
  'metrics:read': 'public',
  'docs:read': 'public',

  'session:create': 'public',
  'session:read': 'signed-in',
  'session:end': 'signed-in',
  'account:read': 'signed-in',
  'account:update': 'signed-in',
  'invitation:read': 'public',
  'invitation:accept': 'public',
  'first-run:read': 'public',
  'first-run:create': 'public',
  'report:check': 'public',
  // A logger's own key stands in for a session.
  'condition:post': 'public',
  // A browser on the wall: a code typed once, then its own key stands in for a session.
  'wall:pair': 'public',
  'wall:read': 'public',

  'laboratory:read': ['manager', 'technician', 'engineer', 'auditor', 'client'],
  'laboratory:update': ['manager'],
  'wall-screen:read': ['manager', 'auditor'],
  'wall-screen:create': ['manager'],
  'wall-screen:end': ['manager'],
  'live:read': ['manager', 'technician', 'engineer', 'auditor', 'client'],

  'device:switch': ['manager', 'technician', 'engineer'],

  'signed-in:read': ['manager', 'auditor'],
  'signed-in:end': ['manager'],

  'search:read': ['manager', 'technician', 'engineer', 'auditor'],

  'people:read': ['manager', 'technician', 'engineer', 'auditor'],
  'people:invite': ['manager'],
  'people:update': ['manager'],

  'authorisation:read': ['manager', 'technician', 'engineer', 'auditor'],
  'authorisation:create': ['manager'],
  'authorisation:correct': ['manager'],

  'client:read': ['manager', 'technician', 'engineer', 'auditor'],
  'client:create': ['manager', 'engineer'],
  'client:update': ['manager', 'engineer'],

  'project:read': ['manager', 'technician', 'engineer', 'auditor'],
  'project:create': ['manager', 'engineer'],
  'project:update': ['manager', 'engineer'],
  'project:pin': ['manager', 'engineer'],

  'specification:read': ['manager', 'technician', 'engineer', 'auditor'],
  'specification:adopt': ['manager', 'engineer'],
  'specification:write': ['manager', 'engineer'],
  'specification:withdraw': ['manager', 'engineer'],

  'material:read': ['manager', 'technician', 'engineer', 'auditor'],
  'material:create': ['manager', 'technician', 'engineer'],
  'label:print': ['manager', 'technician', 'engineer'],
  'custody:record': ['manager', 'technician', 'engineer'],
  'receipt:correct': ['manager', 'technician', 'engineer'],
  'place:read': ['manager', 'technician', 'engineer', 'auditor'],
  'place:create': ['manager', 'engineer'],

  'attachment:read': ['manager', 'technician', 'engineer', 'auditor'],
  'attachment:create': ['manager', 'technician', 'engineer'],

  'design:read': ['manager', 'technician', 'engineer', 'auditor'],
  'design:create': ['manager', 'engineer'],
  'design:update': ['manager', 'engineer'],
  'design:plan': ['manager', 'engineer'],
  'design:enter-result': ['manager', 'technician', 'engineer'],

  'trial-cup:read': ['manager', 'technician', 'engineer', 'auditor'],
  'trial-cup:create': ['manager', 'technician', 'engineer'],
  'trial-cup:use': ['manager', 'engineer'],

  'assignment:read': ['manager', 'technician', 'engineer', 'auditor'],
  'assignment:create': ['manager', 'engineer'],
  'mail:read': ['manager', 'auditor'],
  'mail-wish:read-own': ['manager', 'technician', 'engineer', 'client'],
  'mail-wish:set-own': ['manager', 'technician', 'engineer', 'client'],
  'hand-over:create': ['manager', 'technician', 'engineer'],
  'hand-over:take': ['manager', 'technician', 'engineer'],
  'notice:read-own': ['manager', 'technician', 'engineer'],
  'notice:see': ['manager', 'technician', 'engineer'],

  'bench:read': ['manager', 'technician', 'engineer', 'auditor'],
  'put-in:settle': ['manager', 'technician', 'engineer'],
  'reading:create': ['manager', 'technician', 'engineer'],
  'reading:correct': ['manager', 'technician', 'engineer'],
  'reading:withdraw': ['manager', 'technician', 'engineer'],
  'step-event:create': ['manager', 'technician', 'engineer'],
  'step-event:correct': ['manager', 'technician', 'engineer'],
  'observation:create': ['manager', 'technician', 'engineer'],
  'test:void': ['manager', 'technician', 'engineer'],
  'test:replace': ['manager', 'technician', 'engineer'],

  'load:read': ['manager', 'technician', 'engineer', 'auditor'],
  'load:create': ['manager', 'technician', 'engineer'],
  'load:update': ['manager', 'technician', 'engineer'],

  'condition:read': ['manager', 'technician', 'engineer', 'auditor'],
  'condition:create': ['manager', 'technician', 'engineer'],

  'deviation:read': ['manager', 'technician', 'engineer', 'auditor'],
  'deviation:create': ['manager', 'technician', 'engineer'],
  'deviation:decide': ['manager', 'engineer'],

  'method:read': ['manager', 'technician', 'engineer', 'auditor'],
  'method:edit': ['manager'],

  'instrument:read': ['manager', 'technician', 'engineer', 'auditor'],
  'instrument:create': ['manager'],
  'instrument:update': ['manager'],
  'instrument:import': ['manager'],
  'instrument:fit-part': ['manager', 'technician', 'engineer'],
  'instrument:check': ['manager', 'technician', 'engineer'],
  'instrument:set-line': ['manager', 'technician', 'engineer'],

  'result:read': ['manager', 'technician', 'engineer', 'auditor'],
  'range:read': ['manager', 'technician', 'engineer', 'auditor'],
  'recommendation:read': ['manager', 'technician', 'engineer', 'auditor'],
  'recommendation:create': ['engineer'],

  'review:read': ['manager', 'engineer', 'auditor'],
  'review:acknowledge': ['engineer'],
  'revision:check': ['manager', 'engineer'],
  'revision:approve': ['engineer'],
  'revision:send-back': ['manager', 'engineer'],
  'revision:create': ['manager', 'engineer'],

  'report:read': ['manager', 'technician', 'engineer', 'auditor'],
  'report:issue': ['manager', 'engineer'],
  'report:read-own': ['client'],
  'progress:read': ['client'],
  'question:read': ['manager', 'technician', 'engineer', 'auditor'],
  'question:answer': ['manager', 'engineer'],
  'question:ask': ['client'],
  'project:expect': ['manager', 'engineer'],

  'ledger:read': ['manager', 'auditor'],
  'ledger:verify': ['manager', 'auditor'],
  'ledger:print-head': ['manager'],
  'validation:run': ['manager', 'engineer', 'auditor'],
} as const satisfies Record<string, readonly Role[] | 'public' | 'signed-in'>

/** `<feature>:<verb>`, as routes name it and as the web asks for it. */
export type Action = keyof typeof permissions

/** What a role opens in a laboratory; the web shows only what stands here. */
export function actionsOf(roles: readonly Role[]): Action[] {
  return actions.filter((action) => isLaboratoryAction(action) && mayDo(roles, action))
}

export const actions = Object.keys(permissions) as Action[]

/** Whether an action happens inside a laboratory, and so needs `:lab` in its address. */
export function isLaboratoryAction(action: Action): boolean {
  return typeof permissions[action] !== 'string'
}

/** Whether one of the roles may do an action of a laboratory. */
export function mayDo(roles: readonly Role[], action: Action): boolean {
  const allowed = permissions[action]
  return typeof allowed !== 'string' && roles.some((role) => (allowed as readonly Role[]).includes(role))
}
