import type { Review } from '@curebook/contract/review'
import { newId } from '../../../apps/api/src/platform/uuid.ts'
import type { TestApp } from '../app.ts'
import { timeNow } from './bench.ts'
import type { TestLaboratory } from './laboratory.ts'

/** Two discs at 12 % emulsion that agree. */
export const twoDiscs = {
  'wet-track-abrasion-1h': {
    '12': [
      ['762.0', '750.0'],
      ['763.0', '751.4'],
    ],
  },
} as const

/** The review of a design as its engineer gets it. */
export const read = async (lab: TestLaboratory, designId: string): Promise<Review> =>
  (
    await lab
      .as('engineer')
      .get(lab.path(`/designs/${designId}/review`))
      .expect(200)
  ).body

export const pointsOf = ({ points }: Review, kind: string) => points.filter((point) => point.kind === kind)

/** A disc's last weighing, corrected now. */
export async function correctW2(testApp: TestApp, lab: TestLaboratory, testId: string, typed: string) {
  const technician = lab.people.technician.actor
  const { readings } = await testApp.services.bench.view.one(technician, testId)
  const standing = readings.find(({ stepKey, superseded }) => stepKey === 'weigh-after' && !superseded)!
  return testApp.services.bench.readings.correct(technician, standing.id, {
    id: newId(),
    typed,
    reason: 'digits transposed',
    time: timeNow(testApp),
  })
}
