import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'
import { makeTestedDesign, recommend } from '../../../../../tests/support/factories/tested-design.ts'

vi.setConfig({ testTimeout: 120_000 })

let testApp: TestApp
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
afterAll(() => testApp.close())

const ask = (lab: TestLaboratory, designId: string, without: readonly string[]) =>
  lab
    .as('engineer')
    .post(lab.path(`/designs/${designId}/what-if`))
    .send({ without })

/** How many rows each table of the laboratory holds. */
const rowsOf = (lab: TestLaboratory) =>
  testApp.services.laboratory.inLaboratorySql(lab.people.manager.actor, async (sql) => {
    const { rows: tables } = await sql.query(
      `select c.relname as name from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attname = 'lab_id'
        where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p') and has_table_privilege(c.oid, 'select')
        order by 1`,
      [],
    )
    const counts: Record<string, number> = {}
    for (const { name } of tables as { name: string }[]) {
      const { rows } = await sql.query(`select count(*)::int as n from "${name}" where lab_id = $1`, [lab.labId])
      counts[name] = (rows as { n: number }[])[0]!.n
    }
    return counts
  })

describe('what the range would be without some specimens', () => {
  it('is computed again from those that are left, and says that it is not recorded', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab)
    const disc = specimens.find(({ label, methodKey }) => label === '12-2' && methodKey === 'wet-track-abrasion-1h')!
    const { body } = await ask(lab, design.id, [disc.testId]).expect(200)

    expect(body.recorded).toBe(false)
    expect(body.without).toEqual([
      { testId: disc.testId, code: disc.code, label: '12-2', curve: expect.stringContaining('1-hour') },
    ])
    // Losses at 10 % stay 20.0 and 19.6 g; at 12 % 12.0 g alone is left of 12.0 and 11.6 g; × 32.9 g/m² per g.
    const [lean, rich] = [19.8 * 32.9, 12 * 32.9]
    expect(Number(body.range.minimum.residualPercent)).toBeCloseTo(6.26 + ((lean - 538) / (lean - rich)) * 1.252, 10)
    const means = body.range.curves.find(({ key }: { key: string }) => key === 'abrasion-loss-1-hour').means
    expect(means.map(({ n }: { n: number }) => n)).toEqual([2, 1, 2])
    // The other end has nothing to do with it.
    const standing = await testApp.services.range.read(lab.people.engineer.actor, design.id)
    expect(body.range.maximum).toEqual(standing.maximum)
    expect(body.range.minimum.residualPercent).not.toBe(standing.minimum.residualPercent)
  })

  it('is kept nowhere: no row, no ledger entry, and what would be signed and reported stays as it was', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab)
    await recommend(testApp, lab, design.id)
    const engineer = lab.people.engineer.actor
    const standing = async () => {
      const { digest, workDigest, points } = await testApp.services.review.read(engineer, design.id)
      return { digest, workDigest, points, range: await testApp.services.range.read(engineer, design.id) }
    }
    const [rows, before] = [await rowsOf(lab), await standing()]
    expect(rows['ledger_entry']).toBeGreaterThan(0)
    await ask(
      lab,
      design.id,
      specimens.filter(({ label }) => label.startsWith('12-')).map(({ testId }) => testId),
    ).expect(200)
    expect(await standing()).toEqual(before)
    expect(await rowsOf(lab)).toEqual(rows)
  })

  it('gives no number outside the contents that are left', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab)
    // The leanest content lies above its limit: without it every loss is below, and where the line began is not known.
    const lean = specimens.filter(
      ({ label, methodKey }) => label.startsWith('10-') && methodKey.startsWith('wet-track'),
    )
    const { body } = await ask(
      lab,
      design.id,
      lean.map(({ testId }) => testId),
    ).expect(200)
    expect(body.range.minimum).toMatchObject({ kind: 'open', residualPercent: null, emulsionPercent: null })
    expect(body.range.midpoint).toBeNull()
  })

  it('refuses a specimen that counts in no curve, by its place in the list', async () => {
    const lab = await makeLaboratory(testApp)
    const { design, specimens } = await makeTestedDesign(testApp, lab)
    const { body } = await ask(lab, design.id, [specimens[0]!.testId, newId()]).expect(400)
    expect(body.errors).toMatchObject([{ path: 'without.1' }])
    await ask(lab, design.id, []).expect(400)
    await ask(lab, design.id, [specimens[0]!.testId, specimens[0]!.testId]).expect(400)
  })
})
