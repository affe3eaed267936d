import { expect, test } from 'vitest'
import { readDesignForm, withChoices } from './design-form-data.ts'

function formOf(entries: Record<string, string>): FormData {
  const form = new FormData()
  for (const [name, value] of Object.entries(entries)) form.set(name, value)
  return form
}

test('a material that is not used is null, one that is needed stays for the contract to ask for', () => {
  const read = readDesignForm(
    formOf({
      name: ' Clean design ',
      specificationId: 's',
      aggregateId: '',
      emulsionId: 'e',
      fillerId: '',
      additiveId: 'a',
      waterId: '',
    }),
  )
  expect(read).toMatchObject({
    name: 'Clean design',
    aggregateId: '',
    emulsionId: 'e',
    fillerId: null,
    additiveId: 'a',
    waterId: null,
  })
})

test('a share taken off stays as typed', () => {
  expect(readDesignForm(formOf({ scalpedPercent: '5,90' })).scalpedPercent).toBe('5,90')
})

test('samples that stand and are not asked for are left out', () => {
  expect(readDesignForm(formOf({ name: 'x' }))).not.toHaveProperty('aggregateId')
})

test('a choice that was not made is told in plain words, a refusal of the server as it came', () => {
  expect(
    withChoices({ projectId: 'Invalid UUID', aggregateId: 'AG-1 is a filler.' }, { projectId: 'Choose a project.' }),
  ).toEqual({ projectId: 'Choose a project.', aggregateId: 'AG-1 is a filler.' })
})
