import { decimal } from '@curebook/trade/quantity/decimal'
import type { ComparedPart, ComparedRow, ComparedValue } from './compared.ts'
import type { Design, Mix } from './designs.ts'
import type { Material } from './materials.ts'
import type { RangeEnd, RangeView } from './range.ts'
import type { Recommendation } from './recommendations.ts'
import { alike, isSaid, number, rowOf, text } from './compared-value.ts'

/** A revision with what was found of it and what is recommended. */
export type ComparedDesign = {
  readonly design: Pick<
    Design,
    'specification' | 'materials' | 'fractionUsed' | 'scalpedPercent' | 'residue' | 'moisture' | 'mixes'
  >
  readonly range: ComparedRange
  readonly recommendation: Recommendation | null
}
export type ComparedRange = Pick<RangeView, 'minimum' | 'maximum' | 'sentence' | 'panel' | 'curves'> & {
  readonly midpoint: Pick<NonNullable<RangeView['midpoint']>, 'residualPercent'> | null
}

/**
 * Two designs, or two revisions of one, row by row: what they are made of, what was found, and what is recommended. Nothing
 * is weighed against anything else: a row says where the two differ, never which is better.
 */
export function compareDesigns(first: ComparedDesign, second: ComparedDesign): ComparedPart[] {
  return [
    { key: 'made-of', rows: madeOf(first.design, second.design) },
    { key: 'contents', rows: contents(first.design.mixes, second.design.mixes) },
    ...compareRanges(first.range, second.range),
    { key: 'recommendation', rows: recommendations(first.recommendation, second.recommendation) },
  ]
}

/** Two ranges with their panels and the means that they come from: of two designs, or of one with and without a specimen. */
export function compareRanges(first: ComparedRange, second: ComparedRange): ComparedPart[] {
  return [
    { key: 'range', rows: ranges(first, second) },
    { key: 'means', rows: means(first, second) },
    { key: 'panel', rows: panels(first, second) },
  ]
}

function madeOf(a: ComparedDesign['design'], b: ComparedDesign['design']): ComparedRow[] {
  const kinds = ['aggregate', 'emulsion', 'filler', 'additive', 'water'] as const
  const specification = ({ name, revision, source }: ComparedDesign['design']['specification']) =>
    text(`${name}, ${revision}, ${source}`)
  return [
    rowOf('specification', specification(a.specification), specification(b.specification)),
    ...kinds.map((kind) => rowOf(kind, material(a.materials[kind]), material(b.materials[kind]))),
    rowOf('fraction', text(a.fractionUsed), text(b.fractionUsed)),
    rowOf('scalped', text(a.scalpedPercent), text(b.scalpedPercent)),
    ...(['residue', 'moisture'] as const).flatMap((key) => [
      rowOf(key, number(a[key]?.value, '%'), number(b[key]?.value, '%')),
      rowOf(`${key}-source`, text(a[key]?.source), text(b[key]?.source)),
    ]),
  ].filter(isSaid)
}

function contents(a: readonly Mix[], b: readonly Mix[]): ComparedRow[] {
  const shares = ['water', 'filler', 'additive'] as const
  return alike(a, b, ({ emulsionPercent }) => plain(emulsionPercent)).flatMap(([one, other]) => {
    const of = { content: (one ?? other)?.emulsionPercent ?? '' }
    return shares.map((share) =>
      rowOf(`mix-${share}`, number(one?.[`${share}Percent`], '%'), number(other?.[`${share}Percent`], '%'), of),
    )
  })
}

function ranges(a: ComparedRange, b: ComparedRange): ComparedRow[] {
  const ends = (['minimum', 'maximum'] as const).flatMap((side) => [
    rowOf(side, endOf(a[side]), endOf(b[side])),
    rowOf(`${side}-emulsion`, number(a[side].emulsionPercent, '%', 2), number(b[side].emulsionPercent, '%', 2)),
    rowOf(`${side}-by`, text(a[side].setBy), text(b[side].setBy)),
  ])
  const midpoint = (view: ComparedRange) => number(view.midpoint?.residualPercent, '%', 3)
  return [
    rowOf('outcome', text(a.sentence), text(b.sentence)),
    ...ends,
    rowOf('midpoint', midpoint(a), midpoint(b)),
  ].filter(isSaid)
}

function endOf({ residualPercent, sentence }: RangeEnd): ComparedValue | null {
  return number(residualPercent, '%', 3) ?? text(sentence)
}

function means(a: ComparedRange, b: ComparedRange): ComparedRow[] {
  return alike(a.curves, b.curves, ({ key, unit }) => `${key} ${unit}`).flatMap(([one, other]) => {
    const { label, unit } = (one ?? other)!
    return alike(one?.means ?? [], other?.means ?? [], ({ emulsionPercent }) => plain(emulsionPercent)).flatMap(
      ([mean, its]) => {
        const of = { label, content: (mean ?? its)?.emulsionPercent ?? '' }
        return [
          rowOf('mean', number(mean?.y, unit, 1), number(its?.y, unit, 1), of),
          rowOf('mean-n', count(mean?.n), count(its?.n), of),
        ]
      },
    )
  })
}

function panels(a: ComparedRange, b: ComparedRange): ComparedRow[] {
  return alike(a.panel, b.panel, ({ key }) => key)
    .flatMap(([one, other]) => {
      const of = { label: (one ?? other)?.label ?? '' }
      return [
        rowOf('verdict', text(one?.verdict), text(other?.verdict), of),
        rowOf('value', number(one?.value, one?.unit ?? '', 1), number(other?.value, other?.unit ?? '', 1), of),
        rowOf('limit', text(one?.limit), text(other?.limit), of),
      ]
    })
    .filter(isSaid)
}

function recommendations(a: Recommendation | null, b: Recommendation | null): ComparedRow[] {
  const shares = ['water', 'filler', 'additive'] as const
  return [
    rowOf('emulsion-content', number(a?.emulsionPercent, '%'), number(b?.emulsionPercent, '%')),
    rowOf('residual-content', number(a?.residualPercent, '%', 3), number(b?.residualPercent, '%', 3)),
    rowOf('tolerance', number(a?.toleranceResidualPercent, '%'), number(b?.toleranceResidualPercent, '%')),
    ...shares.flatMap((share) =>
      (['from', 'to'] as const).map((end) =>
        rowOf(`${share}-${end}`, number(a?.[share][end], '%'), number(b?.[share][end], '%')),
      ),
    ),
    rowOf('reason', text(a?.reason), text(b?.reason)),
  ].filter(isSaid)
}

/** The sample itself, by its code: two samples of one name are two materials. */
function material(of: Material | null): ComparedValue | null {
  return of && text([of.name, of.code, of.supplier, of.lot].filter((part) => part !== '').join(', '))
}

function count(n: number | undefined): ComparedValue | null {
  return n === undefined ? null : { kind: 'number', digits: String(n), unit: 'count' }
}

function plain(digits: string): string {
  return decimal(digits).toString()
}
