import { wetStripping } from '@curebook/trade/methods/wet-stripping'
import { expect, test } from 'vitest'
import { limitOf } from './guideline-limits.ts'

export const methods = ['wet-stripping']

// Source: IRC:SP:100-2014, micro-surfacing: 90 % of the surface retain their coating; slurry seal: at least 90 %. Caltrans,
// Standard Specifications, section 37-3, asks for “Pass” by ISSA TB-114 without a number.
const parameters = wetStripping.editions[0]?.parameters ?? {}

test.each(['issa-a143-2010', 'issa-a105'])(
  '%s: what the grade calls satisfactory begins at the published least',
  (key) => {
    const limit = limitOf(key, 'wet-stripping')
    expect(limit.alsoPublished).toContainEqual(expect.objectContaining({ value: '90', unit: '%' }))
    expect(parameters.satisfactory).toMatchObject({ value: limit.value, unit: limit.unit, certainty: 'from memory' })
  },
)
