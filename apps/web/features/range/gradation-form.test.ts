import { expect, test } from 'vitest'
import { atSieves, readGradationForm, readSieves, writeSieves } from './gradation-form.ts'

test('sieves are read as typed or pasted, a line each', () => {
  expect(readSieves('9,5 100\n\n 4.75\t94.0 \n2.36 mm; 74 %\n0.075')).toEqual([
    { size: '9,5', passing: '100' },
    { size: '4.75', passing: '94.0' },
    { size: '2.36', passing: '74' },
    { size: '0.075', passing: '' },
  ])
  expect(readSieves(' \n')).toEqual([])
  const sieves = [{ size: '9,5', passing: '100' }]
  expect(readSieves(writeSieves(sieves))).toEqual(sieves)
})

test('what is said of a sieve stands beside the field, with its line, the first of them', () => {
  expect(atSieves({ 'sieves.1.size': 'A', 'sieves.2.passing': 'B', method: 'C' })).toEqual({
    sieves: '2: A',
    method: 'C',
  })
})

test('of another laboratory nobody here observed it; the file that stands is kept, and a change has its reason', () => {
  const form = new FormData()
  for (const [name, value] of Object.entries({
    sieves: '4.75 94',
    method: 'Sieving',
    observedBy: 'A. Person',
    laboratoryName: 'Fernside Testing',
    source: 'Report 12',
    observedOn: '2026-03-02',
    'supersedes.reason': 'Misread',
  }))
    form.set(name, value)
  const standing = { id: 's', attachment: { id: 'f' } } as never
  expect(readGradationForm(form, { id: 'g', madeBy: 'outside', fileId: null, standing })).toMatchObject({
    observedBy: '',
    laboratoryName: 'Fernside Testing',
    source: 'Report 12',
    attachmentId: 'f',
    supersedes: { id: 's', reason: 'Misread' },
  })
  expect(readGradationForm(form, { id: 'g', madeBy: 'entered', fileId: 'n', standing: null })).toMatchObject({
    observedBy: 'A. Person',
    laboratoryName: '',
    source: '',
    attachmentId: 'n',
  })
})
