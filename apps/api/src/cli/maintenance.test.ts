import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { createMaintenanceService } from '#features/bench/maintenance.service'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../tests/support/app.ts'
import { connect } from '../../../../tests/support/as-login.ts'
import { atOnce } from '../../../../tests/support/at-once.ts'
import { timeNow } from '../../../../tests/support/factories/bench.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../tests/support/factories/laboratory.ts'
import {
  makeTestedDesign,
  oneDisc,
  runToTheEnd,
  weighBatches,
} from '../../../../tests/support/factories/tested-design.ts'
import { replayText, validationText } from './validation-report.ts'

vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 })

let testApp: TestApp
let lab: TestLaboratory
let ids: { disc: string; spare: string; batch: string }
beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
  lab = await makeLaboratory(testApp)
  const { specimens, machineId } = await makeTestedDesign(testApp, lab, {
    weighings: oneDisc,
    spares: [{ emulsionPercent: '12', count: 2 }],
  })
  const [disc] = specimens.filter(({ purpose }) => purpose === 'series')
  const [spare, idle] = specimens.filter(({ purpose }) => purpose === 'spare')
  const { manager, technician } = lab.people
  // Something of everything: a correction, a void with a spare in its place, an assignment.
  const { readings } = await testApp.services.bench.view.one(technician.actor, disc!.testId)
  await testApp.services.bench.readings.correct(
    technician.actor,
    readings.find(({ stepKey }) => stepKey === 'weigh-after')!.id,
    { id: newId(), typed: '750.4', reason: 'misread', time: timeNow(testApp) },
  )
  await weighBatches(testApp, lab, [spare!])
  await runToTheEnd(testApp, lab, [spare!], { instrumentId: machineId, weighed: () => ['760.0', '748.0'] })
  await testApp.services.bench.ending.void(technician.actor, disc!.testId, {
    id: newId(),
    reason: 'Felt tore',
    time: timeNow(testApp),
  })
  await testApp.services.bench.ending.replace(technician.actor, disc!.testId, {
    spareTestId: spare!.testId,
    reason: 'Felt tore',
  })
  await testApp.services.schedule.assign(
    manager.actor,
    { testIds: [idle!.testId], to: technician.actor.membershipId },
    newId(),
  )
  ids = { disc: disc!.testId, spare: spare!.testId, batch: idle!.batchTestId }
})
afterAll(() => testApp.close())

const maintenance = () => createMaintenanceService({ laboratory: testApp.services.laboratory, methods: builtInMethods })

/** What no login of the product can do. */
async function damage(text: string, values: unknown[]): Promise<void> {
  const owner = await connect(testApp.ownerUrl)
  try {
    await owner.query('set session_replication_role = replica')
    await owner.query(text, values)
  } finally {
    await owner.end()
  }
}

describe('the projections', () => {
  it('are what the records say after corrections, voids, spares and assignments', async () => {
    expect(await maintenance().checkProjections(lab.labId)).toEqual([])
  })

  it('are compared without a change, each difference named, and rebuilt to what they were', async () => {
    const { checkProjections, rebuildProjections } = maintenance()
    const damages = [
      ["update test_now set state = 'done' where test_id = $1", ids.disc, 'test_now'],
      ['update test_now set steps_done = 0 where test_id = $1', ids.spare, 'test_now'],
      ['update test_now set assignee_id = null where test_id = $1', ids.batch, 'test_now'],
      ["update slot_now set typed = '1' where test_id = $1 and step_key = 'weigh-after'", ids.spare, 'slot_now'],
      ['delete from slot_now where test_id = $1', ids.spare, 'slot_now'],
      ['delete from due where test_id = $1', ids.batch, 'due'],
      ['delete from test_now where test_id = $1', ids.spare, 'test_now'],
    ] as const
    for (const [text, id, projection] of damages) {
      await damage(text, [id])
      const found = await checkProjections(lab.labId)
      expect(
        found.map((difference) => [difference.projection, difference.testId]),
        text,
      ).toContainEqual([projection, id])
      // A check mends nothing.
      expect(await checkProjections(lab.labId)).toEqual(found)
      await rebuildProjections(lab.labId)
      expect(await checkProjections(lab.labId), text).toEqual([])
    }
  })
})

describe('the validation', () => {
  it('computes every stored result again and finds the same', async () => {
    const replay = await maintenance().replayResults(lab.labId)
    expect(replay.results).toBeGreaterThan(5)
    expect(replay.calculations).toBeGreaterThan(5)
    expect([replay.differences, replay.faults]).toEqual([[], []])
    expect(replayText(lab.labId, replay)).toContain('no difference')
  })

  it('names a stored result that the present computation does not give', async () => {
    await damage(
      "update result set value = 400, value_text = '400' where test_id = $1 and key = 'loss-per-area' and unit = 'g/m²'",
      [ids.spare],
    )
    const replay = await maintenance().replayResults(lab.labId)
    expect(replay.differences).toMatchObject([
      { testId: ids.spare, key: 'loss-per-area, g/m²', stored: '400', present: '394.8' },
    ])
    expect(replay.faults).toHaveLength(1)
    const text = replayText(lab.labId, replay)
    expect(text).toContain('2 DIFFER')
    expect(text).toContain('loss-per-area, g/m²: stored 400, now 394.8')
  })

  it('prints every reference case with inputs, expected, obtained and version', () => {
    const validation = testApp.services.validation.run()
    const text = validationText(validation)
    expect(validation.differing).toBe(0)
    for (const { title, expected, obtained } of validation.rows) {
      expect(text).toContain(title)
      expect(text).toContain(expected)
      expect(text).toContain(obtained)
    }
    expect(text).toContain(
      `${validation.rows.length} of ${validation.rows.length} reference results agree. Version ${validation.version}, Node ${process.version}`,
    )
    const [first, ...rest] = validation.rows
    const wrong = validationText({
      ...validation,
      rows: [{ ...first!, agrees: false }, ...rest],
      agreeing: rest.length,
      differing: 1,
    })
    expect(wrong).toContain('1 DIFFER')
  })
})

describe('the projections, once more', () => {
  it('are rebuilt while the bench goes on: a correction at the same moment stands in them', async () => {
    const { checkProjections, rebuildProjections } = maintenance()
    const { actor } = lab.people.technician
    const { readings } = await testApp.services.bench.view.one(actor, ids.spare)
    const [weighed] = readings.filter(({ stepKey, superseded }) => stepKey === 'weigh-after' && !superseded)
    const correct = () =>
      testApp.services.bench.readings.correct(actor, weighed!.id, {
        ...{ id: newId(), typed: '748.2', reason: 'misread', time: timeNow(testApp) },
      })
    const held = { sql: 'select from test_now where test_id = $1 for update', values: [ids.spare] }
    const outcomes = await atOnce(testApp.ownerUrl, held, correct, () => rebuildProjections(lab.labId))
    expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'fulfilled'])
    expect(await checkProjections(lab.labId)).toEqual([])
  })
})
