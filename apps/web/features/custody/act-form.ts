import type { Item } from '@curebook/contract/custody'

/** Acts that ask for something: taking over is a tap, a split has a form of its own. */
export type AskedKind = Exclude<Item['custody']['allowed'][number], 'taken' | 'split'>

type FieldName = 'from' | 'placeId' | 'mass' | 'to' | 'signedFor' | 'note' | 'condition' | 'temperature' | 'sealIntact'

const seen = ['condition', 'temperature', 'sealIntact'] as const

/** What each act asks for; a note may stand with every one, and must where it is the reason. */
export const fieldsOf: Readonly<Record<AskedKind, readonly FieldName[]>> = {
  received: ['from', 'placeId', 'mass', ...seen, 'note'],
  placed: ['placeId', 'condition', 'temperature', 'note'],
  offered: ['to', 'note'],
  accepted: ['signedFor', ...seen, 'note'],
  refused: ['note'],
  sent: ['to', 'signedFor', ...seen, 'note'],
  returned: ['to', 'signedFor', ...seen, 'note'],
  disposed: ['note'],
  gap: ['note', 'condition', 'temperature'],
}

/** Acts whose note is their reason. */
export const reasoned: readonly AskedKind[] = ['refused', 'disposed', 'gap']

/** What was filled in; a field left empty is not sent, unless the act cannot be without it. */
export function readAct(kind: AskedKind, form: FormData): Readonly<Record<string, unknown>> {
  const needed: readonly FieldName[] = [
    'from',
    'to',
    'signedFor',
    ...(kind === 'placed' ? (['placeId'] as const) : []),
    ...(reasoned.includes(kind) ? (['note'] as const) : []),
  ]
  return Object.fromEntries(
    fieldsOf[kind].flatMap((name): [string, unknown][] => {
      const text = String(form.get(name) ?? '').trim()
      if (text === '' && !needed.includes(name)) return []
      return [[name, name === 'sealIntact' ? text === 'yes' : text]]
    }),
  )
}
