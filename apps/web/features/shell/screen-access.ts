import type { ScreenKey } from '#lib/screens.ts'

/** The actions that open each screen, as the API names them; any one is enough. */
const needs: Record<ScreenKey, readonly string[]> = {
  bench: ['bench:read'],
  ovens: ['load:read'],
  schedule: ['assignment:read'],
  materials: ['material:read'],
  designs: ['design:read'],
  instruments: ['instrument:read'],
  methods: ['method:read'],
  quality: ['deviation:read', 'validation:run'],
  projects: ['project:read', 'progress:read'],
  ledger: ['ledger:read'],
  people: ['people:read'],
  settings: ['laboratory:update'],
}

/** Pages that stand in no navigation; all else that is none of the screens is for everybody (the account). */
const needsBeside: Readonly<Record<string, readonly string[]>> = {
  specifications: ['specification:read'],
  validation: ['validation:run'],
}

/** Forms on a page of their own: who may not send one is told so before filling it in. */
const needsToMake: Readonly<Record<string, string>> = {
  'projects/new': 'project:create',
  'designs/new': 'design:create',
  'materials/new': 'material:create',
  'instruments/new': 'instrument:create',
  'specifications/new': 'specification:adopt',
  'specifications/own': 'specification:write',
  'specifications/edit': 'specification:write',
}

/** Whether the page at this address (`/l/<short>/<page>/…`) is for this person at all; what is in it is refused by the API. */
export function mayOpenPath(path: string, may: (action: string) => boolean): boolean {
  const [page = '', thing = '', act] = path.split('/').slice(3)
  const form = `${page}/${act ?? thing}`
  if (Object.hasOwn(needsToMake, form) && !may(needsToMake[form] ?? '')) return false
  const asked = Object.hasOwn(needs, page)
    ? needs[page as ScreenKey]
    : Object.hasOwn(needsBeside, page)
      ? needsBeside[page]
      : undefined
  return asked === undefined || asked.some(may)
}

export function mayOpen(screen: ScreenKey, may: (action: string) => boolean): boolean {
  return needs[screen].some(may)
}
