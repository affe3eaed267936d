import type { MethodDeclaration } from './declaration.ts'

/**
 * Readings that rest on what was done in a step: its own, and those of the next step in which something must be read. What
 * was weighed before it knows nothing of it. A mass before the soak rests on the cure, the one after on soak, run and drying.
 */
export function readingsRestingOn(
  { steps }: Pick<MethodDeclaration, 'steps'>,
  stepKey: string,
): readonly { readonly step: string; readonly key: string }[] {
  const index = steps.findIndex(({ key }) => key === stepKey)
  if (index < 0) return []
  const [own, ...later] = steps.slice(index)
  const next = own!.readings.some(isRequired) ? undefined : later.find(({ readings }) => readings.some(isRequired))
  return [own!, ...(next ? [next] : [])].flatMap(({ key: step, readings }) =>
    readings.map(({ key }) => ({ step, key })),
  )
}

function isRequired({ optional }: { readonly optional?: boolean }): boolean {
  return optional !== true
}
