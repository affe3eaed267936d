import { Decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aReading, timeNow } from '../../../../../tests/support/factories/bench.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

vi.setConfig({ testTimeout: 600_000, hookTimeout: 300_000 })

const runs = 30
const components = ['aggregate', 'filler', 'additive', 'water', 'emulsion'] as const
type Component = (typeof components)[number]
type Weighed = Partial<Record<Component, string>>

let testApp: TestApp
let lab: TestLaboratory
/** Batches nobody has touched: two a run. */
const fresh: string[] = []
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  lab = await makeLaboratory(testApp)
  const contents = ['9', '10', '11', '12', '13', '14']
  const { specimens } = await makePlannedDesign(
    testApp,
    lab,
    aSeries({ contents, methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 10, spares: [] }] }),
  )
  fresh.push(...specimens.map(({ batchTestId }) => batchTestId))
})
afterAll(() => testApp.close())

const bench = () => testApp.services.bench
const technician = () => lab.people.technician.actor
const view = (testId: string) => bench().view.one(technician(), testId)

/** Says that a component weighs so much now: a first reading, or a correction of the one that stands. */
async function weigh(
  testId: string,
  standing: Map<Component, string>,
  component: Component,
  typed: string,
): Promise<void> {
  const id = newId()
  const before = standing.get(component)
  await (before === undefined
    ? bench().readings.post(technician(), testId, aReading(testApp, 'weigh-components', component, typed, { id }))
    : bench().readings.correct(technician(), before, { id, typed, reason: 'misread', time: timeNow(testApp) }))
  standing.set(component, id)
}

const grams = fc.integer({ min: 1, max: 99_999 }).map((tenths) => plainDigits(new Decimal(tenths).div(10)))
const acts = fc.array(fc.record({ component: fc.constantFrom(...components), typed: grams }), {
  minLength: 1,
  maxLength: 9,
})
/** Each component once, in any order, so that a result comes out of every run. */
const order = fc.shuffledSubarray([...components], { minLength: components.length })
const rest = fc.record({ aggregate: grams, filler: grams, additive: grams, water: grams, emulsion: grams })

const valuesOf = (results: Awaited<ReturnType<typeof view>>['results']) =>
  Object.fromEntries(results.map(({ key, unit, value, refusal }) => [`${key}, ${unit}`, value ?? refusal?.code]))

it('whatever was posted and corrected, in whatever order, a result is of the readings that stand and of no other', async () => {
  await fc.assert(
    fc.asyncProperty(acts, order, rest, order, async (sequence, filling, weighed, otherOrder) => {
      const [corrected, plain] = [fresh.pop()!, fresh.pop()!]
      const model: Weighed = {}
      const standing = new Map<Component, string>()
      for (const { component, typed } of sequence) {
        await weigh(corrected, standing, component, typed)
        model[component] = typed
      }
      const halfway = await view(corrected)
      if (Object.keys(model).length < components.length)
        expect(halfway.results.filter(({ value }) => value !== null)).toEqual([])
      for (const component of filling.filter((one) => model[one] === undefined)) {
        await weigh(corrected, standing, component, weighed[component])
        model[component] = weighed[component]
      }

      // The same final readings, each once and in another order, on another batch.
      const other = new Map<Component, string>()
      for (const component of otherOrder) await weigh(plain, other, component, model[component]!)

      const [after, straight] = [await view(corrected), await view(plain)]
      expect(valuesOf(after.results)).toEqual(valuesOf(straight.results))
      expect(after.results.filter(({ value }) => value !== null)).toHaveLength(7)
      const share = new Decimal(model.emulsion!).div(model.aggregate!).times(100)
      const content = after.results.find(({ key }) => key === 'emulsion-content')!
      expect(new Decimal(content.value!).minus(share).abs().lt('1e-20')).toBe(true)

      // Every reading is kept; each slot shows the model's, and each result names standing readings only.
      const posted =
        sequence.length + filling.filter((one) => !sequence.some(({ component }) => component === one)).length
      expect(after.readings).toHaveLength(posted)
      expect(
        Object.fromEntries(
          after.readings.filter(({ superseded }) => !superseded).map(({ key, typed }) => [key, typed]),
        ),
      ).toEqual(model)
      const allowed = new Set(standing.values())
      for (const { id } of after.results) {
        const { calculation, checked } = await testApp.services.results.one(technician(), id)
        expect(checked).toEqual({ agrees: true, differing: [] })
        for (const { input } of calculation!.lines)
          if (input?.kind === 'reading') expect(allowed.has(input.id!)).toBe(true)
      }
    }),
    { numRuns: runs, endOnFailure: true },
  )
})
