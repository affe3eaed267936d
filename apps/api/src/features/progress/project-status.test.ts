import { DesignStateSchema } from '@curebook/contract/projects'
import { expect, it } from 'vitest'
import { projectStatus, statusWords } from './project-status.ts'

it('has at most six words for the status of a project, plain and none of them a code', () => {
  expect(statusWords).toEqual([
    'Received',
    'Being planned',
    'Tests under way',
    'In review',
    'Approved',
    'Report issued',
  ])
  for (const word of statusWords) expect(word).toMatch(/^[A-Z][a-z]+( [a-z]+)*$/)
})

it('follows the design that is least far along, whether or not a report is issued', () => {
  expect(projectStatus(null, false).status).toBe('Received')
  const shown = DesignStateSchema.options.map((state) => [state, projectStatus(state, true).status])
  expect(Object.fromEntries(shown)).toEqual({
    draft: 'Being planned',
    'in-work': 'Tests under way',
    'sent-back': 'Tests under way',
    'in-review': 'In review',
    approved: 'Report issued',
  })
  expect(projectStatus('approved', false).status).toBe('Approved')
})

it('does not wait for tests that are all done', () => {
  expect(projectStatus('in-work', false, false).next).toBe('An engineer reviews the tests as soon as all are done.')
  expect(projectStatus('in-work', false, true)).toEqual({
    status: 'Tests under way',
    next: 'All tests are done: an engineer reviews them.',
  })
  expect(projectStatus('sent-back', false, true).next).toBe('Some work is looked at again before the review.')
})
