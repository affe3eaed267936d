import type { CalculationBuilder } from '../procedure/calculation-builder.ts'
import type { EditionParameters, EvaluationSetup } from '../procedure/declaration.ts'
import { parameterOf } from '../procedure/evaluation.ts'
import type { Decimal } from '../quantity/decimal.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { practised, remembered } from './edition-parameter.ts'
import { takeParameter } from './working-inputs.ts'

/** What is graded, in the order in which the letters are reported. */
export const gradedProperties = ['abrasion', 'adhesion', 'integrity'] as const
export type GradedProperty = (typeof gradedProperties)[number]

const bounded = ['a', 'b', 'c', 'd'] as const
export type Grade = (typeof bounded)[number] | '0'

/** The grades as a result names them. */
export const gradeChoices: readonly { readonly key: Grade; readonly label: string }[] = [
  { key: 'a', label: 'A' },
  { key: 'b', label: 'B' },
  { key: 'c', label: 'C' },
  { key: 'd', label: 'D' },
  { key: '0', label: '0' },
]

const tb144 = (value: string, unit: string, label: string) => remembered('ISSA TB-144', value, unit, label)

const leastShares = { a: '90', b: '75', c: '50', d: '10' } as const // ISSA TB-144, from memory, unverified
const mostLosses = { a: '0.7', b: '1.0', c: '1.3', d: '2.0' } as const // ISSA TB-144, from memory, unverified
const points = { a: '4', b: '3', c: '2', d: '1', '0': '0' } as const // ISSA TB-144, from memory, unverified

/** The rating table as parameters of an edition: ends in g and %, points of a grade. */
export const gradeParameters: EditionParameters = Object.fromEntries([
  ...bounded.map((grade) => [
    `abrasion-${grade}`,
    tb144(mostLosses[grade], 'g', `Grade ${grade.toUpperCase()}: abrasion loss up to`),
  ]),
  ...bounded.map((grade) => [
    `adhesion-${grade}`,
    tb144(leastShares[grade], '%', `Grade ${grade.toUpperCase()}: surface still coated from`),
  ]),
  ...bounded.map((grade) => [
    `integrity-${grade}`,
    tb144(leastShares[grade], '%', `Grade ${grade.toUpperCase()}: mass still in one piece from`),
  ]),
  ...gradeChoices.map(({ key, label }) => [`points-${key}`, tb144(points[key], 'count', `Points of grade ${label}`)]),
  [
    'shared-end-better',
    practised(
      '1',
      'count',
      'The end point that two grades share belongs to the better one (1) or to the worse one (0)',
    ),
  ],
])

/**
 * Grades a value by the table of the edition and writes the ends it was held against into the working, and the points of the
 * grade as symbol `P.abrasion`. The better grade is asked for first.
 * @throws MethodInputError `missing-setup` when the edition lacks an end or points, `inconsistent` when it does not say to
 * which grade a shared end belongs
 */
export function gradeOf(
  work: CalculationBuilder,
  property: GradedProperty,
  value: Decimal,
  setup: EvaluationSetup,
): Grade {
  const better = sharedEndIsBetter(setup)
  const isIn = (end: Decimal) => {
    if (value.eq(end)) return better
    return property === 'abrasion' ? value.lt(end) : value.gt(end)
  }
  const grade =
    bounded.find((one) => isIn(takeParameter(work, `${one.toUpperCase()}.${property}`, setup, `${property}-${one}`))) ??
    '0'
  takeParameter(work, `P.${property}`, setup, `points-${grade}`)
  return grade
}

function sharedEndIsBetter(setup: EvaluationSetup): boolean {
  const { value } = parameterOf(setup, 'shared-end-better')
  if (Number(value) === 1) return true
  if (Number(value) === 0) return false
  throw new MethodInputError('inconsistent', 'The edition must say 1 or 0 for the end point that two grades share.', {
    'shared-end-better': value,
  })
}
