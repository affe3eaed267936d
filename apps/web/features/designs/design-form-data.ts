/** The samples of a design by the kind of material that each field takes, in the order in which they are asked for. */
export const materialFields = [
  { name: 'aggregateId', kind: 'aggregate', needed: true },
  { name: 'emulsionId', kind: 'emulsion', needed: true },
  { name: 'fillerId', kind: 'filler', needed: false },
  { name: 'additiveId', kind: 'additive', needed: false },
  { name: 'waterId', kind: 'water', needed: false },
] as const

/** What the fields of a design hold. A material that is not used is null; a field that is not there is left out. */
export function readDesignForm(form: FormData) {
  const text = (name: string) => String(form.get(name) ?? '').trim()
  const samples = materialFields
    .filter(({ name }) => form.has(name))
    .map(({ name, needed }) => [name, text(name) === '' && !needed ? null : text(name)] as const)
  const reason = text('specificationReason')
  return {
    name: text('name'),
    specificationId: text('specificationId'),
    ...(reason === '' ? {} : { specificationReason: reason }),
    ...Object.fromEntries(samples),
    fractionUsed: text('fractionUsed'),
    scalpedPercent: text('scalpedPercent'),
  }
}

/** What was left open (the contract says only "Invalid", "Too small" or "A number") is told in the words of its field; what the server says stays as it is. */
export function withChoices(
  errors: Readonly<Record<string, string>>,
  sentences: Readonly<Record<string, string>>,
): Readonly<Record<string, string>> {
  return Object.fromEntries(
    Object.entries(errors).map(([path, message]) => [
      path,
      /^(Invalid|Too small|Too big|A number, like)/.test(message) ? (sentences[path] ?? message) : message,
    ]),
  )
}
