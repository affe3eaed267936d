import { afterAll, beforeAll, expect, test } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { signedTrialMixesIn } from './signed-trials.service.ts'

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

test('trial mixes are signed as typed with the one that was chosen; a design without any is signed as before', async () => {
  const lab = await makeLaboratory(testApp)
  const design = await makeDesign(testApp, lab)
  const mixes = () =>
    testApp.services.laboratory.inLaboratory(lab.people.engineer.actor, (tx) => signedTrialMixesIn(tx, design.id, 1))
  const digests = async () => {
    const { body } = await lab
      .as('engineer')
      .get(lab.path(`/designs/${design.id}/review`))
      .expect(200)
    return { digest: body.digest as string, workDigest: body.workDigest as string }
  }
  const mix = async (more: object) =>
    (
      await lab
        .as('technician')
        .post(lab.path(`/designs/${design.id}/trial-cups`))
        .send({ id: newId(), emulsion: '12', water: '10', additive: '0,2', filler: '1.0', ...more })
        .expect(201)
    ).body
  const before = await digests()
  expect(await mixes()).toBeNull()
  await mix({ mixTime: '74', coated: '95', remark: 'stiff, broke in cup' })
  const second = await mix({
    mixTime: '171',
    temperature: '25,1',
    consistency: 'creamy',
    broke: 'not-broken',
    remark: 'good',
  })
  await lab
    .as('engineer')
    .post(lab.path(`/designs/${design.id}/trial-base`))
    .send({ id: newId(), cupId: second.id })
    .expect(201)
  expect(await mixes()).toMatchObject({
    cups: [
      { number: '1', additive: '0,2', filler: '1.0', mixTime: '74', coated: '95', temperature: '', chosen: false },
      { number: '2', mixTime: '171', temperature: '25,1', remark: 'good', chosen: true },
    ],
  })
  const [plain, seen] = (await mixes())!.cups
  // Left out where nobody noted it: what was signed earlier keeps its bytes.
  expect([plain, seen].map((cup) => ['consistency' in cup!, 'broke' in cup!])).toEqual([
    [false, false],
    [true, true],
  ])
  expect(seen).toMatchObject({ consistency: 'Creamy', broke: 'Not broken when stirring stopped' })
  const after = await digests()
  expect(after.digest).not.toBe(before.digest)
  // A check is of the work on the specimens: a cup is none of it.
  expect(after.workDigest).toBe(before.workDigest)
})
