import { afterAll, beforeAll, expect, test, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { pointsOf, read } from '../../../../../tests/support/factories/reviewed.ts'
import { makeTestedDesign, oneDisc, recommend } from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

test('words on several points stand all or none', async () => {
  const lab = await makeLaboratory(testApp)
  const { design } = await makeTestedDesign(testApp, lab, { weighings: oneDisc })
  await recommend(testApp, lab, design.id)
  const engineer = lab.people.engineer.actor
  const [one, other] = pointsOf(await read(lab, design.id), 'not-tested')
  const said = (...keys: string[]) => keys.map((pointKey) => ({ id: newId(), pointKey, word: 'Not asked for' }))
  const saying = (...keys: string[]) => testApp.services.review.acknowledgeEach(engineer, design.id, said(...keys))

  await expect(saying(one!.key, 'not-tested:nothing')).rejects.toMatchObject({ code: 'invalid-input' })
  const before = await read(lab, design.id)
  expect(before.points.filter(({ acknowledged }) => acknowledged !== null)).toEqual([])

  const after = await saying(one!.key, other!.key)
  const worded = after.points.filter(({ acknowledged }) => acknowledged?.word === 'Not asked for')
  expect(worded.map(({ key }) => key).sort()).toEqual([one!.key, other!.key].sort())
})
