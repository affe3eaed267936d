import type { TestApp } from '../app.ts'
import { newId } from '../../../apps/api/src/platform/uuid.ts'
import { aSeries, makePlannedDesign } from '../factories/design.ts'
import { makeFactor, makeInstrument } from '../factories/instrument.ts'
import { makeLaboratory, makePerson, type TestPerson } from '../factories/laboratory.ts'
import type { LanePlan, PersonKey } from './plan.ts'

export type Bench = Awaited<ReturnType<typeof makeBench>>

const replicates = 10
const contents = ['9', '10', '11', '12', '13', '14', '15', '16']

/** One laboratory with a machine, two people who share a device, a third at another one, and tests that nobody has touched. */
export async function makeBench(testApp: TestApp, wanted: number) {
  const lab = await makeLaboratory(testApp)
  const machine = await makeInstrument(testApp, lab)
  await makeFactor(testApp, lab, machine.id)
  const oven = await makeInstrument(testApp, lab, { code: 'OV-1', kind: 'oven', name: 'Oven, 60 °C' })
  // Nothing stands in it: what stands in an oven is judged anew with each value, and the other one fills up with every sequence.
  const logged = await makeInstrument(testApp, lab, { code: 'OV-2', kind: 'oven', name: 'Oven with a log' })
  const fresh = { batch: [] as string[], disc: [] as string[] }
  while (fresh.disc.length < wanted) {
    const { specimens } = await makePlannedDesign(
      testApp,
      lab,
      aSeries({ contents, methods: [{ methodKey: 'wet-track-abrasion-1h', replicates, spares: [] }] }),
      { name: `Series ${newId().slice(-4)}` },
    )
    fresh.batch.push(...specimens.map(({ batchTestId }) => batchTestId))
    fresh.disc.push(...specimens.map(({ testId }) => testId))
  }
  const people: Record<PersonKey | 'elsewhere', TestPerson> = {
    first: lab.people.technician,
    second: lab.people.technician2,
    elsewhere: await makePerson(testApp, lab, { name: 'Ivo Elsewhere', roles: ['technician'] }),
  }
  return {
    lab,
    people,
    ovenId: oven.id,
    loggedId: logged.id,
    takeTest: ({ test }: Pick<LanePlan, 'test'>) => fresh[test].pop()!,
  }
}
