import type { Curve, RangeEnd } from '@curebook/contract/range'
import { SignedContentSchema, type SignedContent } from '@curebook/contract/signed-content'
import { loadedWheelSandAdhesion } from '@curebook/trade/methods/loaded-wheel-sand-adhesion'
import { wetTrackAbrasion1h, wetTrackAbrasion6d } from '@curebook/trade/methods/wet-track-abrasion'
import { Decimal, decimal, plainDigits } from '@curebook/trade/quantity/decimal'
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
      sentence: 'Between 6.905 and 8.280 % residual binder every tested property with a limit is met.',
      flags: [{ key: 'few', sentence: 'Sand adhesion at 12 % rests on two strips.' }],
    },
    panel: panelOf(hour, days, adhesion),
    ...change,
  })
}

function id(kind: number, index: number): string {
  return `0197a000-0000-7000-8000-${String(kind).padStart(4, '0')}${String(index).padStart(8, '0')}`
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
    limit: { value: method.limit, unit: 'g/m²', label: `at most ${method.limit} g/m²`, source: 'ISSA A143' },
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
      at: '12.0 % emulsion',
      n,
      verdict: 'pass',
      margin: plainDigits(decimal(curve.limit!.value).minus(y)),
      sentence: '',
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

function fixedParts() {
  const at = '2026-03-13T14:20:00.000Z'
  const [engineer, manager] = ['Elin Marsh', 'Marek Dunmore']
  return {
    schema: '1',
    kind: 'revision',
    laboratory: {
      name: 'Tern Hollow Surfacing Laboratory',
      address: 'Unit 4, Tern Hollow Works, Marrowdale',
      contact: 'laboratory@ternhollow.example',
      zone: 'Europe/London',
      decimalSign: '.',
      accreditation: '',
    },
    client: {
      name: 'Marrowdale County Roads',
      contact: 'Ines Calder, pavement engineer',
      address: 'County Hall, Marrowdale',
    },
    project: {
      name: 'Northern network resurfacing',
      kind: 'full design',
      reportTo: 'Ines Calder, Marrowdale County Roads',
      copiesTo: 'road owner’s file',
    },
    design: {
      id: id(2, 1),
      name: 'Micro-surfacing Type II, Skerry Edge aggregate',
      revisionId: id(2, 2),
      revision: '1',
      fractionUsed: 'passing 4.75 mm for discs, whole grading for strips',
      scalpedPercent: '5.9',
    },
    specification: {
      name: 'A143 Type II as adopted by the client',
      source: 'ISSA A143',
      decisionRule:
        'Simple acceptance, agreed at request: a result that meets the limit passes; measurement uncertainty is not added to or taken from the limit.',
      comparison: 'Limits are compared in g/m² with the unrounded mean.',
      aggregateType: 'Type II',
      traffic: 'heavy traffic',
      changes: ['Sand adhesion limit 538 g/m² for heavy traffic.'],
    },
    materials: [
      {
        kind: 'aggregate',
        code: 'AG-11',
        name: 'Crushed aggregate 0/6',
        sourceName: 'Skerry Edge Quarry',
        supplier: 'Skerry Edge Quarry',
        lot: 'stockpile 3',
        receivedOn: '2026-03-02',
        note: '3 bags: 24.8, 25.3, 24.1 kg',
      },
      {
        kind: 'emulsion',
        code: 'EM-07',
        name: 'Quick-set polymer-modified emulsion',
        sourceName: 'Ansel Binders',
        supplier: 'Ansel Binders',
        lot: 'load 4417',
        receivedOn: '2026-03-02',
        note: 'two 5 L containers, 27 °C on arrival, three days old, seals intact',
      },
      {
        kind: 'filler',
        code: 'FI-03',
        name: 'Cement',
        sourceName: 'works store',
        supplier: 'Marrowdale County Roads',
        lot: 'B-22',
        receivedOn: '2026-03-02',
        note: '',
      },
      {
        kind: 'additive',
        code: 'AD-02',
        name: 'Set-control additive',
        sourceName: 'Ansel Binders',
        supplier: 'Ansel Binders',
        lot: 'A-9',
        receivedOn: '2026-03-02',
        note: '0.5 L',
      },
      {
        kind: 'water',
        code: 'WA-05',
        name: 'Job water',
        sourceName: 'site tank',
        supplier: 'Marrowdale County Roads',
        lot: '',
        receivedOn: '2026-03-02',
        note: '10 L',
      },
    ],
    enteredResults: [
      {
        key: 'residue',
        label: 'Residue of the emulsion',
        typed: '62.6',
        unit: '%',
        source: 'own test, mean of three beakers: 62.4, 62.6, 62.8',
        observedOn: '2026-03-02',
        by: 'Ada Lindqvist',
      },
      {
        key: 'aggregate-moisture',
        label: 'Moisture of the aggregate in the bags',
        typed: '0.0',
        unit: '%',
        source: 'own test: oven-dry',
        observedOn: '2026-03-03',
        by: 'Ada Lindqvist',
      },
      {
        key: 'certificate-residue',
        label: 'Residue by certificate',
        typed: '62.8',
        unit: '%',
        source: 'certificate of load 4417',
        observedOn: '2026-02-27',
        by: 'Bram Osei',
      },
    ],
    methods: [wetTrackAbrasion1h, wetTrackAbrasion6d, loadedWheelSandAdhesion].map((method) => {
      const edition = method.editions[0]!
      return {
        key: method.key,
        name: method.name,
        designation: edition.designation,
        edition: edition.year,
        parameters: Object.values(edition.parameters).map(({ label, value, unit, source, certainty }) => ({
          label,
          value,
          unit,
          source,
          certainty,
        })),
      }
    }),
    instruments: [
      {
        code: 'BAL-1',
        name: 'Balance 6 kg × 0.1 g',
        kind: 'balance',
        factor: '',
        calibration: 'certificate C-2201, valid until 2026-08-14',
        usedFor: 'discs, batches',
      },
      {
        code: 'BAL-2',
        name: 'Balance 1.2 kg × 0.01 g',
        kind: 'balance',
        factor: '',
        calibration: 'certificate C-2202, valid until 2026-08-14',
        usedFor: 'strips, filler, additive',
      },
      {
        code: 'WTA-1',
        name: 'Wet track machine, reference class',
        kind: 'wet track machine',
        factor: '32.9 g/m² for each g; 3.06 g/ft² for each g; measured area 303.8 cm²',
        calibration: 'run time and speed checked 2026-02-10',
        usedFor: 'abrasion',
      },
      {
        code: 'LW-1',
        name: 'Loaded wheel, one track',
        kind: 'loaded wheel',
        factor: '73.81 g/m² for each g; frame 38.1 × 355.6 mm',
        calibration: 'load 56.8 kg checked 2026-03-10',
        usedFor: 'sand adhesion',
      },
      {
        code: 'BATH-1',
        name: 'Bath, 16 places',
        kind: 'bath',
        factor: '',
        calibration: 'logger every 10 min',
        usedFor: 'soaks',
      },
    ],
    overall:
      'Three properties meet their limits at 12.0 % emulsion; five were not tested and one has no limit. The panel is not complete.',
    recommendation: {
      emulsionPercent: '12.0',
      residualPercent: '7.5',
      toleranceResidualPercent: '0.5',
      water: '9 to 11 %',
      filler: '0.5 to 1.5 %',
      additive: '0.1 to 0.4 %',
      reason: '7.0 to 8.0 lies inside 6.9 to 8.3, below midpoint for heavy traffic.',
      by: engineer,
      at,
    },
    deviations: [
      {
        code: 'D-1',
        text: 'Soak of 11-3 lasted 79 min; the window closed at 75 min.',
        decision:
          'Accepted: a longer soak can only raise the loss. Without it the 1-hour minimum would be 6.672 % instead of 6.690 %.',
        by: manager,
        at: '2026-03-05T16:05:00.000Z',
      },
      {
        code: 'D-2',
        text: 'Bath above 26.0 °C from Sunday 22:10 to Monday 07:50, peak 27.4 °C; 15 discs of the 6-day soak were inside.',
        decision: 'Accepted: warmer water can only raise the loss.',
        by: engineer,
        at,
      },
    ],
    corrections: [
      {
        code: 'KTX3',
        label: 'W2, 13-1, 1-hour soak',
        from: '737.7',
        to: '773.7',
        reason: 'digits transposed; read again on the balance',
        by: 'Ada Lindqvist',
        at: '2026-03-06T09:12:00.000Z',
      },
    ],
    acknowledgements: [
      { point: 'The soak of 11-3 missed its window', word: 'seen', by: engineer, at },
      { point: 'Sand adhesion at 12 % has n = 2', word: 'accepted', by: engineer, at },
      { point: 'One reading was corrected', word: 'seen', by: engineer, at },
    ],
    people: [
      { name: 'Ada Lindqvist', part: 'weighed, abraded, ran the wheel' },
      { name: 'Bram Osei', part: 'mixed and cast; relief runs' },
      { name: manager, part: 'checked the work of Ada Lindqvist and Bram Osei; own relief runs checked by Bram Osei' },
      { name: engineer, part: 'recommended and approved' },
    ],
    dates: { received: '2026-03-02', firstWork: '2026-03-02', lastWork: '2026-03-13' },
    statements: [
      'The results relate only to the items tested.',
      'This report may not be reproduced except in full without the written agreement of the laboratory.',
      'The laboratory did not take the samples: the results apply to the samples as received.',
      'All work was done at the address of the laboratory given on the first page.',
      'Statements of conformity name the property, the limit and the decision rule that was agreed.',
      'Results from outside the laboratory are marked where they stand.',
    ],
  }
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
      issuedAt: '2026-03-16T10:05:00.000Z',
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
