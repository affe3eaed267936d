import { expect, test } from 'vitest'
import { isTakenElsewhere } from './open-field.ts'

const [field, other] = [{}, {}] as HTMLElement[]
const page = (found: Readonly<Record<string, unknown>>) =>
  ({ querySelector: (selector: string) => found[selector] ?? null }) as unknown as Document
const correction = { '[data-takes-input]': { contains: (one: unknown) => one === field } }

test('what is sent goes into the open field, unless a dialog is open', () => {
  expect(isTakenElsewhere(field, page({}))).toBe(false)
  expect(isTakenElsewhere(undefined, page({}))).toBe(false)
  expect(isTakenElsewhere(field, page({ '[role="dialog"]': {} }))).toBe(true)
})

test('while a reading is corrected it goes into that field, and into none beside it', () => {
  expect(isTakenElsewhere(field, page(correction))).toBe(false)
  expect(isTakenElsewhere(other, page(correction))).toBe(true)
  expect(isTakenElsewhere(undefined, page(correction))).toBe(true)
  expect(isTakenElsewhere(field, page({ ...correction, '[role="dialog"]': {} }))).toBe(true)
})
