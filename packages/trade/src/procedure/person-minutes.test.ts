import { expect, test } from 'vitest'
import { builtInMethods, methodByKey } from '../methods/catalogue.ts'
import { personMinutes, personMinutesOf } from './person-minutes.ts'

test('the longer end counts, and an end of what was started counts nothing again', () => {
  expect(personMinutesOf('disc', 'weigh-before', 'reading')).toBe(1.5)
  expect(personMinutesOf('disc', 'abrade', 'start')).toBe(15)
  expect(personMinutesOf('strip', 'condition', 'start')).toBe(29)
  expect(personMinutesOf('strip', 'condition', 'end')).toBeNull()
  expect(personMinutesOf('disc', 'cure', 'start')).toBeNull()
  expect(personMinutesOf('disc', null, null)).toBeNull()
})

test('every line is of a step that some specimens of its form, or their batch, have', () => {
  const batch = methodByKey(builtInMethods, 'batch')!
  for (const { form, step } of personMinutes) {
    // A form is used by several methods (a strip is sanded, another one only measured): one of them has the step.
    const own = builtInMethods.filter((method) => method.form === form).flatMap(({ steps }) => steps)
    expect(
      [...batch.steps, ...own].map(({ key }) => key),
      `${form} ${step}`,
    ).toContain(step)
  }
})
