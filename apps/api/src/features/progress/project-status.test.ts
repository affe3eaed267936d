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
