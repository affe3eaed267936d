import type { PanelResult } from '@curebook/contract/panel-results'
import { EnterPanelResultSchema } from '@curebook/contract/panel-results'
import { expect, test } from 'vitest'
import { readPanelResultForm } from './panel-result-form.ts'

const id = '01920000-0000-7000-8000-000000000001'
const around = { id, limitKey: 'mix-time', unit: 's', madeBy: 'entered', fileId: null, standing: null } as const
const formOf = (fields: Record<string, string>) => {
  const form = new FormData()
  for (const [name, value] of Object.entries(fields)) form.set(name, value)
  return form
}
const filled = { typed: ' 171 ', method: 'TB-113', observedBy: 'B. Person', observedOn: '2026-03-02' }

test('a filled form is what the contract asks for; a content with a comma is read', () => {
  const read = readPanelResultForm(formOf({ ...filled, atEmulsionPercent: '12,0' }), around)
  expect(EnterPanelResultSchema.parse(read)).toMatchObject({ typed: '171', atEmulsionPercent: '12.0', source: '' })
  expect(readPanelResultForm(formOf(filled), around).atEmulsionPercent).toBeNull()
})

test('a replacement names what it replaces and keeps its file unless another is chosen', () => {
  const standing = { id: `${id.slice(0, -1)}2`, attachment: { id: `${id.slice(0, -1)}3` } } as PanelResult
  const form = formOf({ ...filled, 'supersedes.reason': 'Misread' })
  expect(readPanelResultForm(form, { ...around, standing })).toMatchObject({
    supersedes: { id: standing.id, reason: 'Misread' },
    attachmentId: standing.attachment!.id,
  })
  expect(readPanelResultForm(form, { ...around, standing, fileId: `${id.slice(0, -1)}4` }).attachmentId).toBe(
    `${id.slice(0, -1)}4`,
  )
})

test('what was typed for another maker is not sent', () => {
  const form = formOf({ ...filled, source: 'Report 88', laboratoryName: 'Fernside Testing', instrument: 'Stopwatch 2' })
  expect(readPanelResultForm(form, around)).toMatchObject({ source: '', laboratoryName: '', instrument: 'Stopwatch 2' })
  expect(readPanelResultForm(form, { ...around, madeBy: 'outside' })).toMatchObject({
    source: 'Report 88',
    laboratoryName: 'Fernside Testing',
    instrument: '',
    observedBy: '',
  })
})
