import { describe, expect, test } from 'vitest'
import { ApiProblem, fieldErrors, problemOf } from './api-problem.ts'

const answer = (body: unknown, status = 400) =>
  new Response(typeof body === 'string' ? body : JSON.stringify(body), { status })

describe('a refused answer', () => {
  test('keeps code, sentence, fields and further members', async () => {
    const problem = await problemOf(
      answer(
        {
          type: '/problems/conflict',
          title: 'Already there',
          status: 409,
          detail: 'Two values.',
          errors: [{ path: 'rows.1.mass', message: 'Enter the mass' }],
          stored: '812.4',
        },
        409,
      ),
    )
    expect(problem).toMatchObject({ code: 'conflict', status: 409, message: 'Two values.', extra: { stored: '812.4' } })
    expect(fieldErrors(problem)).toEqual({ 'rows.1.mass': 'Enter the mass' })
  })
  test('still says something when it is no problem', async () => {
    expect((await problemOf(answer('<html>', 502))).message).toBe('The server answered 502.')
  })
  test('counts as no answer when it was cut off on its way', async () => {
    const half = new ReadableStream({
      start(body) {
        body.enqueue(new TextEncoder().encode('{"type":"/problems/conf'))
        body.error(new TypeError('terminated'))
      },
    })
    expect(await problemOf(new Response(half, { status: 409 }))).toMatchObject({ code: 'network', status: 0 })
  })
})

describe('sentences by field', () => {
  test('a problem without fields belongs to the form', () => {
    expect(fieldErrors(new ApiProblem('x', 422, 'No', 'Not now.'))).toEqual({ form: 'Not now.' })
  })
  test('the first sentence of a field stands', () => {
    expect(
      fieldErrors({
        issues: [
          { path: ['a', 0], message: 'first' },
          { path: ['a', 0], message: 'second' },
          { path: [], message: 'whole' },
        ],
      }),
    ).toEqual({ 'a.0': 'first', form: 'whole' })
  })
  test('nothing failed, nothing said', () => {
    expect(fieldErrors(undefined)).toEqual({})
  })
})
