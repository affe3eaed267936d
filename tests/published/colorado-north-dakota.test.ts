import { builtInSpecifications } from '@curebook/trade/specification/built-in'
import { expect, test } from 'vitest'
import { limitOf } from './guideline-limits.ts'

// Sources: the slurry seal specification of the asphalt trade in Colorado; the micro-surfacing provision of North Dakota.
const bandsOf = (guideline: string) => builtInSpecifications.find(({ key }) => key === guideline)?.residualBands ?? {}

test('Colorado: 5 to 15 % residual binder and 10 to 20 % emulsion for all types', () => {
  for (const type of ['Type I', 'Type II', 'Type III'])
    expect(bandsOf('colorado-slurry')[type]).toMatchObject({ from: '5', to: '15', certainty: 'published' })
  expect(limitOf('colorado-slurry', 'emulsion-content')).toMatchObject({ sense: 'between', value: '10', upper: '20' })
})

test('North Dakota: 5 to 9 % residual binder; residue 62 %, softening point 135 °F, viscosity 8000 poise, at least', () => {
  expect(bandsOf('north-dakota-micro')['Type II']).toMatchObject({ from: '5', to: '9', certainty: 'published' })
  expect(limitOf('north-dakota-micro', 'emulsion-residue')).toMatchObject({ sense: 'min', value: '62' })
  expect(limitOf('north-dakota-micro', 'residue-softening-point')).toMatchObject({ usValue: '135', usUnit: '°F' })
  expect(limitOf('north-dakota-micro', 'residue-viscosity')).toMatchObject({ sense: 'min', value: '8000' })
})
