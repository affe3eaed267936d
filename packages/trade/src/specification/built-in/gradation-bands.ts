import type { BandSieve, GradationBand } from '../specification.ts'
import { documents } from './limit-text.ts'

type Row = readonly [size: string, label: string, from: string, to: string, tolerance?: string]

export function bandSieve([size, label, from, to, tolerance]: Row): BandSieve {
  return { size, label, from, to, tolerance: tolerance ?? null }
}

/** Openings in mm with their stockpile tolerances, ± % passing: NCHRP Synthesis 411 (2010), table 18, citing ISSA (2010). */
const sieves = [
  ['9.5', '3/8 in, 9.5 mm', undefined],
  ['4.75', 'No. 4, 4.75 mm', '5'],
  ['2.36', 'No. 8, 2.36 mm', '5'],
  ['1.18', 'No. 16, 1.18 mm', '5'],
  ['0.600', 'No. 30, 0.600 mm', '5'],
  ['0.300', 'No. 50, 0.300 mm', '4'],
  ['0.150', 'No. 100, 0.150 mm', '3'],
  ['0.075', 'No. 200, 0.075 mm', '2'],
] as const

/** % passing by aggregate type, in the order of the sieves above. */
const passing = {
  'Type I': ['100', '100', '90-100', '65-90', '40-65', '25-42', '15-30', '10-20'],
  'Type II': ['100', '90-100', '65-90', '45-70', '30-50', '18-30', '10-21', '5-15'],
  'Type III': ['100', '70-90', '45-70', '28-50', '19-34', '12-25', '7-18', '5-15'],
} as const
export type AggregateType = keyof typeof passing

/** Types II and III with their stockpile tolerances were read in NCHRP Synthesis 411; type I in UFC 3-250-03, which has none. */
const readIn = {
  'Type I': { source: `${documents.ufc}, slurry seal`, clause: 'aggregate gradation' },
  'Type II': { source: `${documents.nchrp}, citing ISSA (2010)`, clause: 'table 18' },
  'Type III': { source: `${documents.nchrp}, citing ISSA (2010)`, clause: 'table 18' },
}

/**
 * The gradation of one aggregate type of the guidelines, each sieve with its stockpile tolerance where `tolerances` holds.
 * Table 18 is of types II and III: type I has none unless a source is named for them.
 */
export function gradationBand(
  type: AggregateType,
  text: Partial<GradationBand> & { readonly tolerances?: boolean } = {},
): GradationBand {
  const { tolerances = type !== 'Type I', ...rest } = text
  const rows = sieves.map(([size, label, tolerance], index) => {
    const [from, to = from] = passing[type][index]!.split('-') as [string, string?]
    return bandSieve([size, label, from, to, tolerances ? tolerance : undefined])
  })
  return { sieves: rows, ...readIn[type], certainty: 'published', ...rest }
}
