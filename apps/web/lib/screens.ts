/**
 * The screens of a laboratory, in the order of the navigation. `needs` is the action a person must have to see it;
 * `roles` are those whose daily work it is, which decides the first screen of each.
 */
export const screens = [
  { key: 'bench', path: 'bench', keys: 'g b' },
  { key: 'ovens', path: 'ovens', keys: 'g o' },
  { key: 'schedule', path: 'schedule', keys: 'g s' },
  { key: 'materials', path: 'materials', keys: 'g m' },
  { key: 'designs', path: 'designs', keys: 'g d' },
  { key: 'instruments', path: 'instruments', keys: 'g i' },
  { key: 'methods', path: 'methods', keys: 'g t' },
  { key: 'quality', path: 'quality', keys: 'g q' },
  { key: 'projects', path: 'projects', keys: 'g p' },
  { key: 'ledger', path: 'ledger', keys: 'g l' },
  { key: 'people', path: 'people', keys: 'g e' },
  { key: 'settings', path: 'settings', keys: 'g x' },
] as const
export type ScreenKey = (typeof screens)[number]['key']

const firstScreens = {
  technician: 'bench',
  manager: 'schedule',
  engineer: 'designs',
  client: 'projects',
  auditor: 'ledger',
} as const
export type ShownRole = keyof typeof firstScreens

/** Where a person lands in the role that they act in. */
export function firstScreenOf(role: string): ScreenKey {
  return firstScreens[role as ShownRole] ?? 'projects'
}
