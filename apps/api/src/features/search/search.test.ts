import type { Found } from '@curebook/contract/search'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
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

const search = (q: string, who: 'technician' | 'auditor' | 'client' = 'technician', of = lab) =>
  of.as(who).get(of.path(`/search?q=${encodeURIComponent(q)}`))
const found = async (q: string): Promise<Found[]> => (await search(q).expect(200)).body.items

describe('the search (ux M15)', () => {
  it('finds a specimen by its code, however it is typed, and by its batch’s code; its test opens', async () => {
    const { testId, code, label } = planned.specimens[0]!
    const expected = { kind: 'specimen', id: testId, title: `${code} (${label})`, why: 'code', matched: code }
    for (const typed of [code, code.toLowerCase(), ` ${code} `, `${code}.B`])
      expect((await found(typed))[0]).toMatchObject(expected)
  })

  it('says of each thing in which field the words stand, the exact ones first', async () => {
    const { design, specimens } = planned
    const byLabel = await found(specimens[0]!.label)
    expect(byLabel[0]).toMatchObject({ kind: 'specimen', why: 'label', matched: specimens[0]!.label })
    expect(await found(design.name)).toContainEqual(
      expect.objectContaining({ kind: 'design', id: design.id, why: 'name', matched: design.name }),
    )
    expect(await found(design.clientName)).toContainEqual(
      expect.objectContaining({ kind: 'project', id: design.projectId, why: 'client', matched: design.clientName }),
    )
    const { aggregate } = design.materials
    expect(await found(aggregate.code)).toContainEqual(
      expect.objectContaining({ kind: 'sample', id: aggregate.id, why: 'code', matched: aggregate.code }),
    )
    expect(await found('person tech')).toContainEqual(
      expect.objectContaining({ kind: 'person', title: 'Person technician', why: 'name' }),
    )
  })

  it('names a thing once, and of each kind a few', async () => {
    const wide = await makeLaboratory(testApp)
    const { specimens } = await makePlannedDesign(testApp, wide, {
      contents: [{ emulsionPercent: '12', waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
      methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 8, spares: [] }],
    })
    expect(specimens).toHaveLength(8)
    const items: Found[] = (await search('12-', 'technician', wide).expect(200)).body.items
    expect(items.map(({ kind }) => kind)).toEqual(Array.from({ length: 6 }, () => 'specimen'))
    for (const { why, matched } of items) expect([why, matched]).toEqual(['label', expect.stringMatching(/^12-[1-8]$/)])
    expect(new Set(items.map(({ id }) => id)).size).toBe(6)
  })

  it('takes signs as they are', async () => {
    expect(await found('%%')).toEqual([])
    expect(await found('__')).toEqual([])
    expect(await found("' or 1=1")).toEqual([])
    await search('x').expect(400)
  })

  it('is the staff’s, and of one laboratory', async () => {
    const { code } = planned.specimens[0]!
    await search(code, 'client').expect(403)
    expect((await search(code, 'auditor').expect(200)).body.items).not.toHaveLength(0)
    const other = await makeLaboratory(testApp)
    const elsewhere = await other
      .as('technician')
      .get(other.path(`/search?q=${code}`))
      .expect(200)
    expect(elsewhere.body.items.filter(({ kind }: Found) => kind === 'specimen')).toEqual([])
  })
})
