import type { BenchTask } from '@curebook/contract/bench'
import { describe, expect, test } from 'vitest'
import { groupTasks, kindsOf, nextLike, placeOf } from './bench-groups.ts'

const now = Date.parse('2026-03-05T10:00:00Z')
const task = (more: Partial<BenchTask>): BenchTask => ({
  testId: 't1',
  itemId: 'i1',
  code: '7KD2',
  label: '10-1',
  form: 'disc',
  designId: 'd1',
  designName: 'Micro-surfacing',
  methodKey: 'wet-track-abrasion-1h',
  methodName: 'Abrasion, 1 h',
  stepKey: 'weigh-before',
  stepTitle: 'Weigh after cure (W1)',
  act: 'reading',
  actLabel: 'Weigh',
  opensAt: null,
  closesAt: null,
  urgency: 'any-time',
  castPlace: null,
  putIn: false,
  ...more,
})

describe('my work on the bench', () => {
  test('seventeen discs that wait for one weighing are one row', () => {
    const tasks = Array.from({ length: 17 }, (_, index) => task({ testId: `t${index}`, label: `10-${index}` }))
    const sections = groupTasks(tasks, now)
    expect(sections).toHaveLength(1)
    expect(sections[0]?.groups).toHaveLength(1)
    expect(sections[0]?.groups[0]?.tasks).toHaveLength(17)
  })
  test('late comes before closing, open, opens later and any time', () => {
    const tasks = [
      task({ testId: 'any' }),
      task({ testId: 'later', opensAt: '2026-03-05T11:00:00Z' }),
      task({ testId: 'late', closesAt: '2026-03-05T09:59:00Z' }),
      task({ testId: 'open', opensAt: '2026-03-05T09:00:00Z', closesAt: '2026-03-05T12:00:00Z' }),
      task({ testId: 'closing', closesAt: '2026-03-05T10:20:00Z' }),
    ]
    expect(groupTasks(tasks, now).map(({ urgency }) => urgency)).toEqual([
      'late',
      'closing',
      'open',
      'opens-later',
      'any-time',
    ])
  })
  test('a window that passes while the screen stands open moves its row, whatever the server said before', () => {
    const tasks = [task({ closesAt: '2026-03-05T10:20:00Z', urgency: 'closing' })]
    expect(groupTasks(tasks, now + 21 * 60_000)[0]?.urgency).toBe('late')
  })
  test('batches of discs and of strips have the same labels: each kind is named once', () => {
    const batch = (label: string, methodKey: string, form: 'disc' | 'strip') =>
      task({
        testId: label,
        label,
        form: 'batch',
        castPlace: { methodKey, methodName: methodKey, form, ordinal: 1, of: 2 },
      })
    const discs = [batch('12-1', 'abrasion', 'disc'), batch('12-2', 'abrasion', 'disc')]
    expect(kindsOf([...discs, batch('12-1', 'sand', 'strip')])).toEqual([
      { form: 'disc', methodName: 'abrasion', labels: ['12-1', '12-2'] },
      { form: 'strip', methodName: 'sand', labels: ['12-1'] },
    ])
    expect([kindsOf(discs), kindsOf([task({})])]).toEqual([[], []])
  })
  test('batches stand in the order of casting, whatever their labels', () => {
    const batch = (label: string, ordinal: number, methodKey = 'b') =>
      task({
        testId: label,
        label,
        form: 'batch',
        castPlace: { methodKey, methodName: methodKey, form: 'disc', ordinal, of: 3 },
      })
    const tasks = [batch('10-1', 3), batch('11-1', 1), batch('12-1', 2), batch('9-1', 9, 'a')]
    expect(groupTasks(tasks, now)[0]?.groups[0]?.tasks.map(({ label }) => label)).toEqual([
      '9-1',
      '11-1',
      '12-1',
      '10-1',
    ])
    const weighed = { testId: '11-1', methodKey: 'wet-track-abrasion-1h' }
    expect(nextLike(tasks.slice(0, 3), weighed)?.label).toBe('12-1')
  })
  test('a row shows the window that closes first, and its specimens in the order of the series', () => {
    const tasks = [
      task({ testId: 'b', label: '10-1', closesAt: '2026-03-05T13:00:00Z' }),
      task({ testId: 'c', label: '9-1', closesAt: '2026-03-05T13:00:00Z' }),
      task({ testId: 'a', label: '12-1', closesAt: '2026-03-05T12:00:00Z' }),
    ]
    const group = groupTasks(tasks, now)[0]?.groups[0]
    expect(group?.closesAt).toBe('2026-03-05T12:00:00Z')
    expect(group?.tasks.map(({ testId }) => testId)).toEqual(['a', 'c', 'b'])
  })
  test('another design, step or act is another row', () => {
    const tasks = [task({}), task({ designId: 'd2' }), task({ stepKey: 'soak', act: 'start' })]
    expect(groupTasks(tasks, now)[0]?.groups).toHaveLength(3)
  })
})

describe('where a row leads', () => {
  test('readings of specimens to the rack, starts and ends to the list, a batch to itself', () => {
    expect(placeOf('tern', task({}))).toBe(
      '/l/tern/bench/rack?methodKey=wet-track-abrasion-1h&stepKey=weigh-before&designId=d1&test=t1',
    )
    expect(placeOf('tern', task({ act: 'start', stepKey: 'soak' }))).toBe(
      '/l/tern/bench/steps?methodKey=wet-track-abrasion-1h&stepKey=soak&act=start&designId=d1',
    )
    expect(placeOf('tern', task({ form: 'batch' }))).toBe('/l/tern/bench/tests/t1')
  })
  test('after a batch comes the next one that waits to be weighed, not itself and not one to be mixed', () => {
    const batch = (testId: string, label: string, act: BenchTask['act'] = 'reading') =>
      task({ testId, label, act, methodKey: 'batch', form: 'batch' })
    const tasks = [batch('b1', '10-1'), batch('b3', '10-3'), batch('b0', '9-1', 'start'), batch('b2', '10-2')]
    expect(nextLike(tasks, { testId: 'b1', methodKey: 'batch' })?.testId).toBe('b2')
    expect(nextLike([tasks[0]!], { testId: 'b1', methodKey: 'batch' })).toBeUndefined()
  })
  test('after a batch for a test beside the series comes one of the same design and test, or none', () => {
    const batch = (testId: string, methodKey: string, designId = 'd1') =>
      task({
        testId,
        designId,
        methodKey: 'batch',
        form: 'batch',
        castPlace: { methodKey, methodName: methodKey, form: 'disc', ordinal: 1, of: 2 },
      })
    const current = { testId: 'b1', methodKey: 'batch', beside: { designId: 'd1', methodKey: 'cohesion' } }
    const others = [batch('b1', 'cohesion'), batch('b2', 'wet-track-abrasion-1h'), batch('b3', 'cohesion', 'd2')]
    expect(nextLike(others, current)).toBeUndefined()
    expect(nextLike([...others, batch('b4', 'cohesion')], current)?.testId).toBe('b4')
  })
})
