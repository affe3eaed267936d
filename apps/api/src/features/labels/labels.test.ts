import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
let lab: TestLaboratory
let planned: Awaited<ReturnType<typeof makePlannedDesign>>
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  lab = await makeLaboratory(testApp)
  planned = await makePlannedDesign(testApp, lab)
})
afterAll(() => testApp.close())

const read = async (item: string) =>
  (
    await lab
      .as('technician')
      .get(lab.path(`/items/${item}/label`))
      .expect(200)
  ).body
const print = (item: string, count: number, key = newId()) =>
  lab
    .as('technician')
    .post(lab.path(`/items/${item}/label-prints`))
    .set('idempotency-key', key)
    .send({ count })

describe('labels of containers (ux M16)', () => {
  it('bear the code, as words and for a camera, and what is in the container', async () => {
    const { id, code, name, lot } = planned.design.materials.emulsion
    const label = await read(id)
    expect(label).toMatchObject({ itemId: id, code, prints: [] })
    expect(label.square.path).toMatch(/^M0 0h1v1h-1z/)
    expect(label.lines.join('\n')).toContain(name)
    if (lot !== '') expect(label.lines.join('\n')).toContain(`lot ${lot}`)
  })

  it('say the day as people write it, and a quarry that supplies itself once', async () => {
    const id = newId()
    const sample = { id, kind: 'aggregate', name: 'Crushed', sourceName: 'Skerry Quarry', supplier: 'Skerry Quarry' }
    await lab
      .as('manager')
      .post(lab.path('/materials'))
      .send({ ...sample, lot: '3', receivedOn: '2026-02-09' })
      .expect(201)
    expect((await read(id)).lines).toEqual(['Crushed', 'Skerry Quarry', 'lot 3, received 9 Feb 2026'])
  })

  it('are recorded at each print, the first and every one again, by whom and how many', async () => {
    const { id } = planned.design.materials.aggregate
    await print(id, 34).expect(200)
    const { body } = await print(id, 2).expect(200)
    expect(body.prints).toMatchObject([
      { count: 34, by: { name: 'Person technician' } },
      { count: 2, by: { name: 'Person technician' } },
    ])
    expect((await read(id)).prints).toEqual(body.prints)
    const entries = await testApp.services.ledger.list(lab.people.manager.actor, {
      limit: 50,
      subjectKind: 'item',
      subjectId: id,
    })
    expect(entries.items.filter(({ action }) => action === 'label:print')).toHaveLength(2)
  })

  it('sent twice by one press, also at once, are one print', async () => {
    const { id } = planned.design.materials.emulsion
    const key = newId()
    const answers = await Promise.all([print(id, 5, key), print(id, 5, key)])
    expect(answers.map(({ status }) => status)).toEqual([200, 200])
    expect((await read(id)).prints).toHaveLength(1)
    await print(id, 6, key).expect(409)
  })

  it('are refused for a specimen, which is weighed, and for no or too many labels', async () => {
    const { itemId, code } = planned.specimens[0]!
    const refused = await lab
      .as('technician')
      .get(lab.path(`/items/${itemId}/label`))
      .expect(422)
    expect(refused.body.detail).toContain(`${code} is weighed`)
    await print(itemId, 1).expect(422)
    const { id } = planned.design.materials.emulsion
    for (const count of [0, 201, 1.5]) await print(id, count).expect(400)
  })
})
