const texts = [
  'containerKind',
  'temperature',
  'condition',
  'sampledBy',
  'sampledWhere',
  'sampledHow',
  'safetySheet',
  'safetySheetName',
  'madeOn',
  'placeId',
] as const

/** A field's name and the path of its error. */
export function receiptField(name: string): string {
  return ['receipt', name].join('.')
}

/** What was found on arrival, as filled in under `receipt.`; nothing filled in is no receipt. */
export function readReceipt(form: FormData): Readonly<Record<string, unknown>> | undefined {
  const given = (name: string) => String(form.get(receiptField(name)) ?? '').trim()
  const count = given('containerCount')
  const containers = given('containers')
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
  const seal = given('sealIntact')
  const receipt = {
    ...Object.fromEntries(texts.map((name) => [name, given(name)]).filter(([, text]) => text !== '')),
    // What is no number stays as typed, so that the contract refuses it beside its field.
    ...(count === '' ? {} : { containerCount: /^\d+$/.test(count) ? Number(count) : count }),
    ...(containers.length === 0 ? {} : { containers }),
    ...(seal === '' ? {} : { sealIntact: seal === 'yes' }),
  }
  return Object.keys(receipt).length === 0 ? undefined : receipt
}

/** Containers are typed in one field, a line each: what is said of some of them stands beside that field, one after another. */
export function atContainers(errors: Readonly<Record<string, string>>): Readonly<Record<string, string>> {
  const told: Record<string, string> = {}
  for (const [path, message] of Object.entries(errors)) {
    const field = path.replace(/^(receipt\.containers)\.\d+$/, '$1')
    told[field] = told[field] === undefined ? message : `${told[field]} ${message}`
  }
  return told
}
