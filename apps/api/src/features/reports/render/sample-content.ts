import type { Curve, RangeEnd } from '@curebook/contract/range'
import type { Calculation } from '@curebook/contract/results'
import { SignedContentSchema, type SignedContent } from '@curebook/contract/signed-content'
import { Decimal, decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import { fixedParts, sampleId as id } from './sample-fixed-parts.ts'
import { groupedBy } from './grouped-by.ts'
import type { ReportToRender } from './report-input.ts'
import {
  sampleMethods,
  sampleMixes,
  sampleSpecimens,
  type SampleMethod,
  type SampleSpecimen,
} from './sample-specimens.ts'

/**
 * A finished design of an invented laboratory, for tests only: 44 specimens, a late soak, a correction, a warm bath, n = 2,
 * properties not tested. Every number of a result is computed here from the weighings.
 */
export function sampleContent(change: Partial<SignedContent> = {}): SignedContent {
  const specimens = sampleSpecimens()
  const curves = sampleMethods.map((method, index) =>
    curveOf(
      method,
      specimens.filter((one) => one.method === method),
      index,
    ),
  )
  const [hour, days, adhesion] = curves as [Curve, Curve, Curve]
  const minimum = endOf(
    days,
    'Abrasion loss, 6-day soak',
    'The 6-day soak meets 807 g/m² at a higher content than the 1-hour soak meets 538 g/m².',
  )
  const maximum = endOf(adhesion, 'Sand adhesion', 'The sand adhesion reaches 538 g/m².')
  const midpoint = decimal(minimum.residualPercent!).plus(maximum.residualPercent!).div(2)
  return SignedContentSchema.parse({
    ...fixedParts(),
    specimens: specimens.map(({ signed }) => signed),
    curves,
    mixes: sampleMixes,
    range: {
      minimum,
      maximum,
      midpoint: plainDigits(midpoint),
      midpointCalculation: meanWork(
        'Midpoint',
        [
          ['Minimum', minimum.residualPercent!],
          ['Maximum', maximum.residualPercent!],
        ],
        plainDigits(midpoint),
        '%',
      ),
      sentence: 'Between 6.905 and 8.280 % residual binder every tested property with a limit is met.',
      comparison: 'Means are compared with the limit unrounded, in the limit’s own unit.',
      flags: [{ key: 'few', sentence: 'Sand adhesion at 12 % rests on two strips.' }],
    },
    panel: panelOf(hour, days, adhesion),
    ...change,
  })
}

function curveOf(method: SampleMethod, specimens: readonly SampleSpecimen[], kind: number): Curve {
  const means = [...groupedBy(specimens, ({ content }) => content)].map(([content, group], index) => {
    const mean = (pick: (one: SampleSpecimen) => Decimal) => Decimal.sum(...group.map(pick)).div(group.length)
    const [x, y] = [mean((one) => one.x), mean((one) => one.y)]
    const squares = Decimal.sum(...group.map((one) => one.y.minus(y).pow(2)))
    const spread = Decimal.max(...group.map((one) => one.y)).minus(Decimal.min(...group.map((one) => one.y)))
    return {
      mixId: id(1, index),
      emulsionPercent: content,
      x: plainDigits(x),
      y: plainDigits(y),
      n: group.length,
      standardDeviation: plainDigits(squares.div(group.length - 1).sqrt()),
      range: plainDigits(spread),
    }
  })
  return {
    key: method.key,
    methodKey: method.key,
    property: method.form === 'disc' ? 'abrasion-loss' : 'sand-adhesion',
    soak: method.key.endsWith('1h') ? '1-hour' : method.form === 'disc' ? '6-day' : null,
    label: method.result,
    unit: 'g/m²',
    sense: 'max',
    limit: {
      value: method.limit,
      unit: 'g/m²',
      label: `at most ${method.limit} g/m²`,
      source: 'ISSA A143',
      guarded: null,
    },
    points: specimens.map(({ signed, content, x, y }, index) => ({
      testId: id(10 + kind, index),
      resultId: id(20 + kind, index),
      code: signed.code,
      label: signed.label,
      mixId: id(1, Number(content) - 10),
      emulsionPercent: content,
      x: plainDigits(x),
      y: plainDigits(y),
      flags: /79 min|corrected/.test(signed.remark) ? [signed.remark.split(/[:,]/)[0]!] : [],
    })),
    means,
    excluded: [],
    meansWithExcluded: [],
    crossing: crossingOf(means, method.limit),
    flags: [],
  }
}

function crossingOf(means: Curve['means'], limit: string): string | null {
  for (const [index, right] of means.entries()) {
    const left = means[index - 1]
    if (!left) continue
    const [y0, y1] = [decimal(left.y), decimal(right.y)]
    if (y0.minus(limit).times(y1.minus(limit)).gt(0)) continue
    return plainDigits(
      decimal(left.x).plus(decimal(limit).minus(y0).times(decimal(right.x).minus(left.x)).div(y1.minus(y0))),
    )
  }
  return null
}

function endOf(curve: Curve, setBy: string, sentence: string): RangeEnd {
  const crossing = curve.crossing!
  const upper = curve.means.findIndex(({ x }) => decimal(x).gt(crossing))
  const [left, right] = [curve.means[upper - 1]!, curve.means[upper]!]
  const input = (symbol: string, name: string, value: string, unit: string, source: string) => ({
    symbol,
    name,
    op: 'input' as const,
    operands: [],
    value,
    unit,
    source,
  })
  return {
    kind: 'crossing',
    residualPercent: crossing,
    emulsionPercent: plainDigits(decimal(crossing).div('62.6').times(100)),
    setBy,
    sentence,
    calculation: {
      schema: 1,
      lines: [
        input('y', 'Limit', curve.limit!.value, 'g/m²', 'ISSA A143, as adopted'),
        input('x0', `Mean residual, ${left.emulsionPercent} % mix`, left.x, '%', 'mean of n, as weighed'),
        input('y0', `Mean result, ${left.emulsionPercent} % mix`, left.y, 'g/m²', 'mean of n'),
        input('x1', `Mean residual, ${right.emulsionPercent} % mix`, right.x, '%', 'mean of n, as weighed'),
        input('y1', `Mean result, ${right.emulsionPercent} % mix`, right.y, 'g/m²', 'mean of n'),
        {
          symbol: 'x',
          name: 'Content where the means meet the limit',
          op: 'interpolate',
          operands: ['y', 'y0', 'x0', 'y1', 'x1'],
          value: crossing,
          unit: '%',
          source: 'straight line between means',
        },
      ],
    },
  }
}

function meanWork(
  name: string,
  values: readonly (readonly [string, string])[],
  mean: string,
  unit: string,
): Calculation {
  const inputs = values.map(([of, value], index) => ({
    symbol: `v${index + 1}`,
    name: of,
    op: 'input' as const,
    operands: [],
    value,
    unit,
    source: 'as it stands',
  }))
  const operands = inputs.map(({ symbol }) => symbol)
  return {
    schema: 1,
    lines: [...inputs, { symbol: 'V', name, op: 'mean', operands, value: mean, unit, source: 'arithmetic mean' }],
  }
}

function panelOf(hour: Curve, days: Curve, adhesion: Curve): SignedContent['panel'] {
  const tested = (curve: Curve): SignedContent['panel'][number] => {
    const { y, n } = curve.means.find(({ emulsionPercent }) => emulsionPercent === '12')!
    return {
      key: curve.key,
      label: curve.label,
      soak: curve.soak,
      limit: `≤ ${curve.limit!.value} g/m²`,
      limitSource: 'ISSA A143',
      certainty: 'published',
      value: y,
      unit: 'g/m²',
      at: 'at 12.0 % emulsion',
      n,
      verdict: 'pass',
      margin: plainDigits(decimal(curve.limit!.value).minus(y)),
      sentence: '',
      classes: null,
      calculation: meanWork(
        'Mean at 12 % emulsion',
        curve.points.filter(({ emulsionPercent }) => emulsionPercent === '12').map((point) => [point.label, point.y]),
        y,
        'g/m²',
      ),
      entered: null,
      beside: null,
    }
  }
  const untested = (
    key: string,
    label: string,
    limit: string,
    certainty = 'published',
  ): SignedContent['panel'][number] => ({
    key,
    label,
    soak: null,
    limit,
    limitSource: 'ISSA A143',
    certainty,
    value: null,
    unit: null,
    at: null,
    n: null,
    verdict: 'not tested',
    margin: null,
    sentence: '',
    classes: null,
    calculation: null,
    entered: null,
    beside: null,
  })
  return [
    tested(hour),
    tested(days),
    tested(adhesion),
    untested('mix-time', 'Mix time at 25 °C', '≥ 120 s'),
    untested('cohesion-30', 'Wet cohesion, 30 min', '≥ 12 kg·cm'),
    untested('cohesion-60', 'Wet cohesion, 60 min', '≥ 20 kg·cm'),
    untested('stripping', 'Wet stripping', '≥ 90 % coated', 'from memory'),
    untested('compatibility', 'Compatibility of the fines', '≥ 11 grade points', 'from memory'),
    {
      ...untested('lateral', 'Lateral displacement', 'no limit held'),
      limitSource: '',
      certainty: '',
      verdict: 'no limit held',
    },
  ]
}

/** The sample as a report ready to be rendered. */
export function sampleReport(
  change: { content?: Partial<SignedContent>; report?: Partial<ReportToRender['report']> } = {},
): ReportToRender {
  const digest = '5f0c1e7a9b2d4c6e8f101213141516171819202122232425262728293031aabb'
  return {
    content: sampleContent(change.content),
    report: {
      number: 'THS-2026-014',
      amendment: 0,
      replaces: null,
      madeAt: '2026-03-16T10:05:00.000Z',
      language: 'en',
      paper: 'A4',
      checkCode: 'R7KD-4QMX-9T',
      checkUrl: 'https://bench.ternhollow.example/check/R7KD4QMX9T',
      digest,
      ...change.report,
    },
    signatures: [
      {
        meaning: 'approved',
        name: 'Elin Marsh',
        role: 'engineer',
        statement: 'I have reviewed the work and its deviations and approve this content for issue.',
        at: '2026-03-16T09:58:00.000Z',
        digest,
      },
    ],
  }
}
