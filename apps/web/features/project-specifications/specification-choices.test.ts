import type { Specification } from '@curebook/contract/specifications'
import { expect, test } from 'vitest'
import { choicesOf, choicesOfDesign, chosenOf } from './specification-choices.ts'

const version = (id: string, changes: Partial<Specification> = {}) =>
  ({ id, name: id, version: 1, standing: 'current', project: null, ...changes }) as Specification

test('a contract’s own copies come first, older versions last; what stands and what is withdrawn is not offered', () => {
  const items = [
    version('older', { standing: 'superseded' }),
    version('stands'),
    version('withdrawn', { standing: 'withdrawn' }),
    version('usual', { version: 2 }),
    version('copy', { project: { id: 'p', name: 'Lanes' } }),
  ]
  expect(choicesOf(items, 'stands').map(({ id }) => id)).toEqual(['copy', 'usual', 'older'])
})

test('a design is offered its project’s version though others have followed it, and keeps its own', () => {
  const items = [
    version('usual'),
    version('followed', { standing: 'superseded' }),
    version('project', { standing: 'superseded' }),
    version('gone', { standing: 'withdrawn' }),
  ]
  const offered = (ofProject?: string, ofDesign?: string) =>
    choicesOfDesign(items, { ofProject, ofDesign }).map(({ id }) => id)
  expect(offered('project', 'usual')).toEqual(['usual', 'project'])
  expect(offered('gone', 'gone')).toEqual(['usual', 'gone'])
  expect(offered('gone')).toEqual(['usual'])
})

test('what was picked stays where the next project may choose it, and gives way to the project’s own where not', () => {
  const offered = [version('usual'), version('project')]
  const chosen = (picked: string | undefined, ofProject?: string) => chosenOf(offered, { picked, ofProject })
  expect(chosen(undefined, 'project')).toBe('project')
  expect(chosen('usual', 'project')).toBe('usual')
  expect(chosen('copy of another project', 'project')).toBe('project')
  expect(chosen('copy of another project')).toBe('')
  expect(chosen('', 'project')).toBe('')
})
