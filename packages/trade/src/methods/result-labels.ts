import { methodByKey } from './catalogue.ts'
import type { MethodDeclaration } from '../procedure/declaration.ts'

/** The class that a stored result names, in words; null where the result is a number. */
export function choiceLabel(
  methods: readonly MethodDeclaration[],
  methodKey: string | null,
  key: string,
  choice: string | null,
): string | null {
  if (choice === null || methodKey === null) return choice
  const declared = methodByKey(methods, methodKey)?.results.find((result) => result.key === key)
  return declared?.choices?.find((one) => one.key === choice)?.label ?? choice
}

/** What a stored result is called and how many decimals are shown, by its method's own declaration. */
export function resultLabels(
  methods: readonly MethodDeclaration[],
  methodKey: string | null,
  key: string,
  unit: string | null,
): { label: string; displayDecimals: number } {
  const declared =
    methodKey === null
      ? undefined
      : methodByKey(methods, methodKey)?.results.find(
          (result) => result.key === key && (unit === null || (result.unit ?? unit) === unit),
        )
  return { label: declared?.label ?? key, displayDecimals: declared?.displayDecimals ?? 2 }
}
