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

export function mayOpen(screen: ScreenKey, may: (action: string) => boolean): boolean {
  return needs[screen].some(may)
}
