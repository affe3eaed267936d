import { expect, test } from 'vitest'
import { sampleContent } from '../reports/render/sample-content.ts'
import { reportStatements } from './report-statements.ts'

const content = sampleContent()
const [entered] = content.enteredResults

test('of the sampling a report says only that the laboratory holds no record of it', () => {
  const said = reportStatements(content).join(' ')
  expect(said).toContain(
    'The laboratory holds no record of the sampling; the results apply to the samples as received.',
  )
  expect(said).not.toMatch(/taken by/)
})

test('a value counts as supplied by others unless its source begins with the word own', () => {
  const saidOf = (source: string) =>
    reportStatements({ ...content, enteredResults: [{ ...entered!, source }] }).filter((statement) =>
      statement.startsWith('Supplied by others'),
    )
  expect(saidOf('Own test, ASTM D6934')).toEqual([])
  for (const source of ['Owner’s certificate 12', 'Supplier’s certificate 4417'])
    expect(saidOf(source)).toEqual([
      `Supplied by others and not tested here: ${entered!.label.toLowerCase()}. The laboratory does not answer for these values.`,
    ])
})
