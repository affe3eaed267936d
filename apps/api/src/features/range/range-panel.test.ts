import { analyseCurve } from '@curebook/trade/design/curve'
import { adoptSpecification } from '@curebook/trade/specification/adopt'
import { builtInSpecifications } from '@curebook/trade/specification/built-in'
import { expect, it } from 'vitest'
import type { PanelClassPoint, PanelTestPoint } from '@curebook/trade/specification/panel-tests'
import type { PanelResult } from '@curebook/contract/panel-results'
import type { PanelFacts } from './panel-facts.ts'
import { panelOf } from './range-panel.ts'

const reason = 'Contract 12, clause 4'
function rulesWithout(...keys: readonly string[]) {
  const outcome = adoptSpecification(
    builtInSpecifications.find(({ key }) => key === 'issa-a143-2010')!,
    {
      name: 'Contract 12',
      aggregateType: 'Type II',
      traffic: 'heavy',
      changes: keys.map((limitKey) => ({ limitKey, value: null, reason })),
    },
  )
  if (!outcome.ok) throw new Error('The specification was not adopted.')
  return outcome.specification
}
const curve = (key: string, limit: '538' | null) =>
  analyseCurve({
    key,
    property: key,
    soak: null,
    label: key,
    bears: 'minimum',
    unit: 'g/m²',
    limit: limit === null ? null : { value: limit, unit: 'g/m²', sense: 'max', label: key, source: 'A143' },
    points: ['6', '7'].map((x) => ({
      testId: x,
      resultId: x,
      code: x,
      label: x,
      mixId: x,
      emulsionPercent: String(Number(x) * 2),
      x,
      y: '400',
      flags: [],
    })),
  })

it('names what no limit is held for, also while something waits for the recommended content', () => {
  const rules = rulesWithout('abrasion-loss-1-hour')
  const curves = [curve('abrasion-loss-1-hour', null), curve('sand-adhesion', '538')]
  const { rows, sentence } = panelOf(curves, {
    rules,
    content: null,
    sign: '.',
    entered: [],
    tested: [],
    methodsOf: {},
  })
  const row = (key: string) => rows.find((one) => one.key === key)
  expect(row('sand-adhesion')).toMatchObject({
    verdict: 'undecided',
    sentence: expect.stringContaining('judged once a content is recommended'),
  })
  // Tested, and nothing to judge it by: that does not wait for a recommendation.
  expect(row('abrasion-loss-1-hour')).toMatchObject({
    verdict: 'no limit held',
    sentence: expect.stringContaining('no limit is held'),
  })
  expect(sentence).toMatch(/^The panel is not complete\./)
  expect(sentence).toMatch(/Undecided: .+\. No limit held: .*abrasion loss, 1-hour soak/)
})

const tested = (value: string, more: Partial<PanelTestPoint> = {}): PanelTestPoint => ({
  limitKey: 'wet-stripping',
  methodKey: 'boiled',
  testId: `t${value}`,
  resultId: `r${value}`,
  code: value,
  label: `12-${value}`,
  emulsionPercent: '12',
  value,
  unit: '%',
  ...more,
})
const entered = (typed: string, more: Partial<PanelResult> = {}): PanelResult => ({
  ...{ id: typed, limitKey: 'wet-stripping', typed, value: typed, unit: '%', madeBy: 'outside' },
  ...{ method: 'TB-114', edition: '', source: 'Report 7', laboratoryName: 'Other', instrument: '', observedBy: '' },
  ...{ observedOn: '2026-03-02', atEmulsionPercent: '12', remark: '', attachment: null, revision: 1 },
  ...{ by: { membershipId: 'm', name: 'N', initials: 'N' }, at: '2026-03-02T09:00:00Z', supersedes: null },
  ...more,
})
const stripping = (facts: Partial<PanelFacts>) =>
  panelOf([], {
    rules: rulesWithout(),
    content: { emulsionPercent: '12', residualPercent: '7.5' },
    sign: '.',
    entered: [],
    tested: [],
    methodsOf: { 'wet-stripping': ['boiled', 'rolled'] },
    nameOf: (key) => `Coating, ${key}`,
    ...facts,
  }).rows.find(({ key }) => key === 'wet-stripping')!

it('says how many tests are asked for, only where fewer count', () => {
  const asked = (n: number | null) => ({ askedOf: (key: string) => (key === 'boiled' ? n : 1) })
  expect(stripping({ tested: [tested('95')], ...asked(3) })).toMatchObject({ n: 1, asked: 3 })
  for (const enough of [1, null])
    expect(stripping({ tested: [tested('95')], ...asked(enough) })).not.toHaveProperty('asked')
  const rules = rulesWithout()
  const only = [curve('abrasion-loss-1-hour', '538')]
  const facts = { rules, content: null, sign: '.' as const, entered: [], tested: [], methodsOf: {} }
  const rowOf = (curveAsks: (key: string, content: string) => number | null, content: PanelFacts['content']) =>
    panelOf(only, { ...facts, content, curveAsks }).rows.find(({ key }) => key === 'abrasion-loss-1-hour')!
  const [lean, rich] = only[0]!.means
  const at = { emulsionPercent: lean!.emulsionPercent, residualPercent: lean!.x }
  expect(rowOf(() => lean!.n, at)).not.toHaveProperty('asked')
  expect(rowOf(() => lean!.n + 1, at)).toMatchObject({ n: lean!.n, asked: lean!.n + 1 })
  // Between two contents the greater number of the two is asked for.
  const between = { emulsionPercent: '0', residualPercent: String((Number(lean!.x) + Number(rich!.x)) / 2) }
  const most = (_: string, content: string) => (content === rich!.emulsionPercent ? rich!.n + 2 : 1)
  expect(rowOf(most, between)).toMatchObject({ asked: rich!.n + 2 })
})

it('tells what another method found of the same, and is undecided where the two decide otherwise', () => {
  // The limit of ISSA A143 is at least 90 %.
  const agreeing = stripping({ tested: [tested('95'), tested('92', { methodKey: 'rolled' })] })
  expect(agreeing).toMatchObject({ verdict: 'pass', value: '95', n: 1 })
  expect(agreeing.sentence).toMatch(/^By Coating, boiled: 95 % meets .+ By Coating, rolled: 92 % meets /)
  const apart = stripping({ tested: [tested('95'), tested('80', { methodKey: 'rolled' })] })
  expect(apart).toMatchObject({ verdict: 'undecided', value: '95', margin: null })
  expect(apart.sentence).toMatch(
    /By Coating, boiled: 95 % meets .+ By Coating, rolled: 80 % does not meet .+ undecided\.$/,
  )
  expect(stripping({ tested: [tested('80'), tested('95', { methodKey: 'rolled' })] }).verdict).toBe('undecided')
  // Without a second one nothing is said of methods.
  expect(stripping({ tested: [tested('95')] }).sentence).toMatch(/^95 % meets/)
})

it('a value entered beside a test stays, judged by itself; a failing one leaves a passing test undecided', () => {
  const passing = stripping({ tested: [tested('95')], entered: [entered('93')] })
  expect(passing).toMatchObject({ verdict: 'pass', entered: null, beside: { typed: '93' } })
  expect(passing.sentence).toContain('Entered beside it: 93 %, TB-114: 93 % meets')
  const failing = stripping({ tested: [tested('95')], entered: [entered('85')] })
  expect(failing).toMatchObject({ verdict: 'undecided', margin: null, beside: { typed: '85' } })
  expect(failing.sentence).toMatch(/85 % does not meet .+ One meets the limit and the other does not: undecided\./)
  // A good value from outside lifts no failing test, and one of another content is told and not judged.
  expect(stripping({ tested: [tested('80')], entered: [entered('95')] }).verdict).toBe('fail')
  const elsewhere = stripping({ tested: [tested('95')], entered: [entered('85', { atEmulsionPercent: '10' })] })
  expect(elsewhere.verdict).toBe('pass')
  expect(elsewhere.sentence).toContain('Entered beside it: 85 %, TB-114, at 10 % emulsion.')
})

it('a limit is answered by a class where the method says which classes meet it', () => {
  const cup = (label: string, passes: boolean): PanelClassPoint => {
    const { value: _, unit: __, ...point } = tested(label)
    return { ...point, words: passes ? 'Pass' : 'Fail', passes }
  }
  const met = stripping({ classed: [cup('1', true), cup('2', true)] })
  expect(met).toMatchObject({ verdict: 'pass', value: null, n: 2, at: 'at 12 % emulsion' })
  expect(met.sentence).toContain('Pass (12-1), Pass (12-2), meets what is asked.')
  expect(stripping({ classed: [cup('1', true), cup('2', false)] })).toMatchObject({ verdict: 'fail', n: 2 })
  const failing = stripping({ classed: [cup('1', true)], entered: [entered('85')] })
  expect(failing).toMatchObject({ verdict: 'undecided', beside: { typed: '85' } })
})

it('is undecided where a test stands in several units and none is the limit’s', () => {
  const units = ['% of total dry mix', '% of dry aggregate'] as const
  const row = stripping({ tested: units.map((unit) => tested('95', { unit })) })
  expect(row).toMatchObject({ verdict: 'undecided', value: null })
  expect(row.sentence).toContain('the results stand in % of total dry mix, % of dry aggregate and the limit in %')
})

it('of tests that are no replicates each has to meet the limit: none is averaged away', () => {
  // Coating of 98, 95 and 84 % has a mean of 92.3 %, which would meet the 90 % of ISSA A143; 84 % does not.
  const points = ['98', '84', '95'].map((value) => tested(value))
  expect(stripping({ tested: points })).toMatchObject({ verdict: 'pass', n: 3 })
  const row = stripping({ tested: points, apart: ['boiled'] })
  expect(row).toMatchObject({ verdict: 'fail', value: '84', margin: '-6', n: 1 })
  expect(row.sentence).toContain('98 % (12-98), 84 % (12-84), 95 % (12-95)')
  expect(row.calculation!.lines.map(({ value }) => value)).toEqual(['84'])
  // One by itself needs no such words.
  expect(stripping({ tested: points.slice(0, 1), apart: ['boiled'] }).sentence).not.toContain('replicates')
})

it('without a limit none of such tests speaks for the others: all of them stand', () => {
  const rules = rulesWithout('wet-stripping')
  const row = stripping({ rules, tested: ['98', '84'].map((value) => tested(value)), apart: ['boiled'] })
  expect(row).toMatchObject({ verdict: 'no limit held', value: null, classes: '98 % (12-98), 84 % (12-84)', n: 2 })
})
