import { typedDigits } from '#lib/typed-digits.ts'

export const certainties = ['published', 'common practice', 'from memory'] as const

/** Where a change stands in the body, and so what its fields and their errors are named. */
export function boundPath(index: number, field: 'parameter' | 'value' | 'source' | 'certainty'): string {
  return ['changes', index, field].join('.')
}

/** The form as the contract wants it, with the bounds in the order in which their fields stand. */
export function readEditionForm(
  form: FormData,
  given: {
    readonly id: string
    readonly copiedFrom: string
    readonly bounds: readonly { readonly key: string; readonly unit: string }[]
  },
) {
  const text = (name: string) => String(form.get(name) ?? '').trim()
  return {
    id: given.id,
    copiedFrom: given.copiedFrom,
    changes: given.bounds.map(({ key, unit }, index) => ({
      parameter: key,
      value: typedDigits(form.get(boundPath(index, 'value')), unit, unit === '°C'),
      source: text(boundPath(index, 'source')),
      certainty: text(boundPath(index, 'certainty')),
    })),
    effectiveFrom: text('effectiveFrom'),
    reason: text('reason'),
  }
}
