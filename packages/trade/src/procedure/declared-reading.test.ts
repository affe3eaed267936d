import { expect, test } from 'vitest'
import { builtInMethods, methodByKey } from '../methods/catalogue.ts'
import { declaredReading } from './declared-reading.ts'

const cone = methodByKey(builtInMethods, 'cone-consistency')!
const declared = (step: string, key: string) => declaredReading(builtInMethods, cone, { step, key })

test('a weighing that stands with the batch is known at the step that takes it, and nowhere else', () => {
  expect(declared('cone-1', 'flow')).toMatchObject({ unit: 'mm', repeats: 4 })
  expect(declared('cone-1', 'aggregate')).toMatchObject({ kind: 'number', unit: 'g', optional: true })
  expect(declared('cone-1', 'aggregate')).not.toHaveProperty('target')
  expect(declared('prepare', 'aggregate')).toBeUndefined()
  expect(declared('cone-1', 'torque')).toBeUndefined()
  expect(declaredReading([cone], cone, { step: 'cone-1', key: 'aggregate' })).toBeUndefined()
})

test('every weighing that a method takes of its batch is one that a batch has', () => {
  const taken = builtInMethods.flatMap((method) =>
    (method.batchReadings?.keys ?? []).map((key) =>
      declaredReading(builtInMethods, method, { step: method.batchReadings!.step, key }),
    ),
  )
  expect(taken.length).toBeGreaterThan(0)
  expect(taken).not.toContain(undefined)
})
