import type { EditionParameters, MethodDeclaration } from '../procedure/declaration.ts'
import { parameterOf } from '../procedure/evaluation.ts'

/**
 * Dry aggregate of one batch in g: by the method's own edition where that says how much of the mix it takes, else by the
 * batch edition for the form that is cast.
 * @throws MethodInputError `missing-setup` where the edition does not say
 */
export function batchPortion(
  method: Pick<MethodDeclaration, 'form' | 'portionParameter'>,
  editions: { readonly own: EditionParameters; readonly batch: EditionParameters },
): string {
  return method.portionParameter === undefined
    ? parameterOf({ parameters: editions.batch }, `${method.form}-aggregate`).value
    : parameterOf({ parameters: editions.own }, method.portionParameter).value
}
