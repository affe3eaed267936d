import type { FastifyRequest } from 'fastify'
import fp from 'fastify-plugin'
import { invalidField } from './problem.ts'

/** What is looked at: where it stands is put into words only where something is wrong with it. */
type Place = { readonly value: unknown; readonly name: string; readonly within: Place | undefined }

/**
 * Refuses text that no database keeps, wherever it stands in a request: the sign of number zero, and half of a character
 * (a lone surrogate), which has no UTF-8 form and no digest.
 */
export const storableText = fp(
  async (app) => {
    app.addHook('preValidation', async ({ body, query, params }: FastifyRequest) => {
      for (const value of [body, query, params]) refuseUnstorable(value)
    })
  },
  { name: 'storable-text' },
)

/** Goes through it without calling itself: JSON may be nested as deep as it is long. */
function refuseUnstorable(whole: unknown): void {
  const open: Place[] = [{ value: whole, name: '', within: undefined }]
  for (let place = open.pop(); place !== undefined; place = open.pop()) {
    const { value } = place
    if (typeof value === 'string') {
      if (isStorable(value)) continue
      throw invalidField(
        pathOf(place),
        'There is a sign in it that cannot be kept: a null sign, or half of a character. Take it out and send it again.',
      )
    }
    if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) continue
    for (const [name, member] of Object.entries(value)) {
      if (!isStorable(name)) throw invalidField(pathOf(place), 'The name of a field holds a sign that cannot be kept.')
      open.push({ value: member, name, within: place })
    }
  }
}

function isStorable(text: string): boolean {
  return !text.includes('\0') && !/\p{Surrogate}/u.test(text)
}

/** `rows.1.mass`; of the whole body `form`. */
function pathOf(place: Place): string {
  const names: string[] = []
  for (let at: Place | undefined = place; at?.within !== undefined; at = at.within) names.push(at.name)
  return names.length === 0 ? 'form' : names.reverse().slice(0, 20).join('.')
}
