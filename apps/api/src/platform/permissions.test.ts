import { describe, expect, test } from 'vitest'
import { actions, actionsOf, isLaboratoryAction, mayDo, permissions } from './permissions.ts'

const writing = /:(?!read\b|read-own\b|verify\b|run\b)/

describe('who may do what', () => {
  test('the auditor reads all of the laboratory and writes nothing', () => {
    expect(actionsOf(['auditor']).filter((action) => writing.test(action))).toEqual([])
    const unread = actions.filter(
      (action) => action.endsWith(':read') && isLaboratoryAction(action) && !mayDo(['auditor'], action),
    )
    expect(unread).toEqual(['progress:read'])
  })

  test('a client reaches progress, own reports, questions and mail, and what every page needs', () => {
    expect(actionsOf(['client']).sort()).toEqual([
      'laboratory:read',
      'live:read',
      'mail-wish:read-own',
      'mail-wish:set-own',
      'progress:read',
      'question:ask',
      'report:read-own',
    ])
  })

  test('only engineers recommend and approve, only engineer or manager decide on deviations', () => {
    expect(permissions['revision:approve']).toEqual(['engineer'])
    expect(permissions['recommendation:create']).toEqual(['engineer'])
    expect(permissions['deviation:decide']).toEqual(['manager', 'engineer'])
  })

  test('several roles open what each of them opens', () => {
    expect(mayDo(['technician', 'auditor'], 'ledger:verify')).toBe(true)
    expect(mayDo(['technician', 'auditor'], 'reading:create')).toBe(true)
    expect(mayDo(['technician'], 'ledger:verify')).toBe(false)
  })
})
