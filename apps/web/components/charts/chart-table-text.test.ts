import { expect, test } from 'vitest'
import { chartTableText } from './chart-table-text.ts'

const axis = (label: string, unit: string) => ({ label, unit, domain: [0, 1] as const, ticks: [], begins: null })
const heads = { specimen: 'Specimen', series: 'Curve', remarks: 'Remarks' }

test('a copied table has its units, every digit and every remark, one cell a column', () => {
  const text = chartTableText(
    { x: axis('Residual binder', '% of dry aggregate'), y: axis('Loss', 'g/m²') },
    [
      { series: { label: '1-hour' }, point: { label: '7KD2', xDigits: '7.512345', yDigits: '388.2200', flags: [] } },
      {
        series: { label: '6-day' },
        point: { label: 'M3QX', xDigits: '8', yDigits: '401', flags: ['void', 'felt\ttore'] },
      },
    ],
    { heads, decimalSign: ',' },
  )
  expect(text.split('\n')).toEqual([
    'Specimen\tCurve\tResidual binder (% of dry aggregate)\tLoss (g/m²)\tRemarks',
    '7KD2\t1-hour\t7,512345\t388,2200\t',
    'M3QX\t6-day\t8\t401\tvoid, felt tore',
  ])
})
