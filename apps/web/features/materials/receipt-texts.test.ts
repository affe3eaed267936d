import type { CustodyEvent, Receipt } from '@curebook/contract/custody'
import { expect, test } from 'vitest'
import { readReceipt } from './receipt-form.ts'
import { receiptTexts } from './receipt-texts.ts'

const event = {
  condition: 'good',
  sealIntact: true,
  temperature: '27',
  to: { kind: 'place', placeId: 'p', name: 'Cool store' },
} as CustodyEvent
const receipt: Receipt = {
  containerKind: 'jerrycan',
  containerCount: 2,
  containers: [
    { typed: '5,0 L', amount: '5', unit: 'L' },
    { typed: '5 litres', amount: '5', unit: 'L' },
  ],
  sampledBy: 'Foreman',
  sampledWhere: null,
  sampledHow: null,
  safetySheet: 'on-file',
  safetySheetName: null,
  emulsionAge: { madeOn: '2026-02-27', days: 3, retestFromDay: 14, source: 'common practice, no source' },
}
const formOf = (texts: object) => {
  const form = new FormData()
  for (const [name, text] of Object.entries(texts)) form.set(`receipt.${name}`, text as string)
  return form
}

test('a receipt that stands fills the fields, which read give the same receipt', () => {
  expect(readReceipt(formOf(receiptTexts(receipt, event)))).toEqual({
    containerKind: 'jerrycan',
    containerCount: 2,
    containers: ['5,0 L', '5 litres'],
    temperature: '27',
    condition: 'good',
    sealIntact: true,
    sampledBy: 'Foreman',
    safetySheet: 'on-file',
    madeOn: '2026-02-27',
    placeId: 'p',
  })
})

test('nothing told fills nothing', () => {
  const nothing = { condition: null, sealIntact: null, temperature: null, to: null } as CustodyEvent
  expect(readReceipt(formOf(receiptTexts(null, nothing)))).toBeUndefined()
})
