import { PlanMaterialTestSchema, PlanSeriesSchema } from '@curebook/contract/designs'
import type { Method } from '@curebook/contract/methods'
import { expect, test } from 'vitest'
import { errorsByField, planOfTest, replicatesOf } from './plan-of-test.ts'

const mix = {
  ...{ id: 'm12', ordinal: 1, emulsionPercent: '12.0', waterPercent: '10' },
  ...{ fillerPercent: '1', additivePercent: '0.2' },
}
const form = (fields: Record<string, string>) => {
  const data = new FormData()
  for (const [name, value] of Object.entries(fields)) data.set(name, value)
  return data
}
const ofMix = { key: 'cohesion', madeFrom: 'batch' } as const

test('a test of a mix is planned at a content that stands, with the shares that it has', () => {
  const plan = planOfTest(form({ mix: 'm12', replicates: '2' }), ofMix, [mix])
  expect(plan).toEqual({
    contents: [{ emulsionPercent: '12.0', waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
    methods: [{ methodKey: 'cohesion', replicates: 2, spares: [] }],
  })
  expect(PlanSeriesSchema.safeParse(plan).success).toBe(true)
})

test('another content is as typed, and what is no number is refused beside its field', () => {
  const shares = { emulsionPercent: '12,5', waterPercent: 'ten', fillerPercent: '1', additivePercent: '0' }
  const plan = planOfTest(form({ mix: 'new', replicates: '1', ...shares }), ofMix, [mix])
  expect(plan).toMatchObject({ contents: [{ emulsionPercent: '12.5', waterPercent: 'ten' }] })
  const judged = PlanSeriesSchema.safeParse(plan)
  expect(judged.error?.issues.map(({ path }) => path.join('.'))).toEqual(['contents.0.waterPercent'])
})

test('a test of the materials asks for no content', () => {
  const plan = planOfTest(form({ mix: 'm12', replicates: '3' }), { key: 'pills', madeFrom: 'materials' }, [mix])
  expect(plan).toEqual({ methodKey: 'pills', replicates: 3 })
  expect(PlanMaterialTestSchema.safeParse(plan).success).toBe(true)
  expect(PlanMaterialTestSchema.safeParse(planOfTest(form({ replicates: 'two' }), undefined, [])).success).toBe(false)
})

test('what is wrong is told with its field, wherever the contract found it', () => {
  const judge = (replicates: string) =>
    PlanSeriesSchema.safeParse(planOfTest(form({ mix: 'm12', replicates }), ofMix, [mix]))
  for (const typed of ['', 'two', '2.5', '0', '11']) {
    const issues = judge(typed).error?.issues ?? []
    const errors = errorsByField(Object.fromEntries(issues.map(({ path, message }) => [path.join('.'), message])))
    expect(errors, typed).toEqual({ replicates: 'Enter a whole number from 1 to 10.' })
  }
})

test('as many as the edition in force asks for are proposed, with its source', () => {
  const parameter = (value: string) => ({
    ...{ value, unit: 'count', label: 'Tests', source: 'Own practice', certainty: 'common practice' as const },
  })
  const edition = (inForce: boolean, value?: string) =>
    ({ inForce, parameters: value === undefined ? {} : { replicates: parameter(value) } }) as Method['editions'][number]
  expect(replicatesOf({ editions: [edition(false, '2'), edition(true, '3')] })).toEqual(parameter('3'))
  expect(replicatesOf({ editions: [edition(true)] })).toBeUndefined()
  expect(replicatesOf(undefined)).toBeUndefined()
})
