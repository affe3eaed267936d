import type { SignedContent, SignedSpecimen } from '@curebook/contract/signed-content'
import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import { displayDigits } from '@curebook/trade/quantity/display'
import { oneHour, sand, sixDay, type Weighing } from './sample-weighings.ts'

type Calculation = NonNullable<SignedSpecimen['results'][number]['calculation']>
type Line = Calculation['lines'][number]

/** One method of the sample: where its specimens come from and how their result is named. */
export type SampleMethod = {
  readonly key: string
  readonly name: string
  readonly form: string
  readonly letter: string
  readonly weighings: readonly Weighing[]
  readonly factor: string
  readonly result: string
  readonly difference: string
  readonly source: string
  readonly limit: string
  readonly steps: readonly (readonly [step: string, label: string, at: string])[]
}

const discSteps = (castDay: string, dryDay: string, runDay: string, lastDay: string) =>
  [
    ['Cast', 'Cast', `2026-03-${castDay}T09:10:00Z`],
    ['Cure', 'In the oven', `2026-03-${castDay}T11:45:00Z`],
    ['Cure', 'Out of the oven', `2026-03-${dryDay}T08:35:00Z`],
    ['Soak', 'In the bath', `2026-03-${dryDay}T10:20:00Z`],
    ['Abrade', 'Run started', `2026-03-${runDay}T11:22:00Z`],
    ['Dry back', 'In the oven', `2026-03-${runDay}T11:36:00Z`],
    ['Dry back', 'Out of the oven', `2026-03-${lastDay}T08:00:00Z`],
  ] as const

export const sampleMethods: readonly SampleMethod[] = [
  {
    key: 'wet-track-abrasion-1h',
    name: 'Wet track abrasion, 1-hour soak',
    form: 'disc',
    letter: 'K',
    weighings: oneHour,
    factor: '32.9',
    result: 'Abrasion loss, 1-hour soak',
    difference: 'Loss',
    source: 'ISSA TB-100, from memory, unverified',
    limit: '538',
    steps: discSteps('04', '05', '05', '06'),
  },
  {
    key: 'wet-track-abrasion-6d',
    name: 'Wet track abrasion, 6-day soak',
    form: 'disc',
    letter: 'N',
    weighings: sixDay,
    factor: '32.9',
    result: 'Abrasion loss, 6-day soak',
    difference: 'Loss',
    source: 'ISSA TB-100, from memory, unverified',
    limit: '807',
    steps: discSteps('05', '06', '12', '13'),
  },
  {
    key: 'loaded-wheel-sand-adhesion',
    name: 'Loaded wheel sand adhesion',
    form: 'strip',
    letter: 'T',
    weighings: sand,
    factor: '73.81',
    result: 'Sand adhesion',
    difference: 'Sand picked up',
    source: 'ISSA TB-109 (2018)',
    limit: '538',
    steps: [
      ['Cast', 'Cast', '2026-03-09T13:20:00Z'],
      ['Cure', 'In the oven', '2026-03-09T15:45:00Z'],
      ['Cure', 'Out of the oven', '2026-03-10T07:30:00Z'],
      ['Condition', 'Wheel started', '2026-03-10T08:35:00Z'],
      ['Dry', 'In the oven', '2026-03-10T16:05:00Z'],
      ['Dry', 'Out of the oven', '2026-03-11T08:00:00Z'],
      ['Sand', 'Sand poured', '2026-03-11T09:40:00Z'],
    ],
  },
]

const later = (at: string, minutes: number) => new Date(Date.parse(at) + minutes * 60_000).toISOString()
const alphabet = 'ACDEFGHJKMNPQRTUVWXY34679'

/** Short code of a specimen: no look-alikes, the same in every run. */
function codeOf(method: SampleMethod, index: number): string {
  return `${method.letter}${alphabet[(index * 7) % 25]}${alphabet[(index * 11 + 3) % 25]}${alphabet[(index * 3 + 8) % 25]}`
}

/** The 44 specimens of the sample, with what was computed from their weighings. */
export function sampleSpecimens() {
  return sampleMethods.flatMap((method) =>
    method.weighings.map((weighing, index) => specimenOf(method, weighing, index)),
  )
}
export type SampleSpecimen = ReturnType<typeof sampleSpecimens>[number]

function specimenOf(method: SampleMethod, [label, aggregate, emulsion, W1, W2, remark = '']: Weighing, index: number) {
  const loss = method.form === 'disc' ? decimal(W1).minus(W2) : decimal(W2).minus(W1)
  const perArea = loss.times(method.factor)
  const x = decimal(emulsion).div(aggregate).times('62.6')
  const [content = ''] = label.split('-')
  const by = index % 2 === 0 ? 'Ada Lindqvist' : 'Bram Osei'
  const code = codeOf(method, index)
  const balance = method.form === 'disc' ? 'BAL-1' : 'BAL-2'
  const reading = (
    step: string,
    name: string,
    typed: string,
    at: string,
    corrected = '',
  ): SignedSpecimen['readings'][number] => ({
    step,
    label: name,
    typed,
    unit: 'g',
    by,
    eventAt: later(at, index),
    instrument: balance,
    corrected,
  })
  const cast = method.steps[0]![2]
  const mass = (share: string) => decimal(aggregate).times(share).toFixed(1)
  const line = (fields: Omit<Line, 'operands'> & { operands?: string[] }): Line => ({ operands: [], ...fields })
  const [first, second] = method.form === 'disc' ? ['W1', 'W2'] : ['W2', 'W1']
  const calculation: Calculation = {
    schema: 1,
    lines: [
      line({ symbol: 'W1', name: 'First weighing', op: 'input', value: W1, unit: 'g', source: 'as weighed' }),
      line({ symbol: 'W2', name: 'Last weighing', op: 'input', value: W2, unit: 'g', source: 'as weighed' }),
      line({
        symbol: 'D',
        name: method.difference,
        op: 'difference',
        operands: [first, second],
        value: plainDigits(loss),
        unit: 'g',
        source: method.source,
      }),
      line({
        symbol: 'F',
        name: 'Factor, g/m² per g',
        op: 'input',
        value: method.factor,
        unit: 'g/m²',
        source: method.form === 'disc' ? 'WTA-1, measured area 303.8 cm²' : 'LW-1, frame 38.1 × 355.6 mm',
      }),
      line({
        symbol: 'R',
        name: method.result,
        op: 'product',
        operands: ['D', 'F'],
        value: plainDigits(perArea),
        unit: 'g/m²',
        source: method.source,
      }),
    ],
  }
  const decimals = method.form === 'disc' ? 1 : 2
  const signed: SignedSpecimen = {
    code,
    label,
    form: method.form,
    method: method.name,
    emulsionTarget: `${content}.0`,
    emulsionAsWeighed: plainDigits(decimal(emulsion).div(aggregate).times(100)),
    residualAsWeighed: plainDigits(x),
    purpose: 'curve',
    state: 'done',
    remark,
    batch: [
      reading('Batch', 'Aggregate', aggregate, cast),
      reading('Batch', 'Filler', mass('0.01'), cast),
      reading('Batch', 'Water', mass('0.10'), cast),
      reading('Batch', 'Additive', mass('0.002'), cast),
      reading('Batch', 'Emulsion', emulsion, cast),
    ],
    readings: [
      reading('Weigh after cure', 'W1', W1, method.steps[2]![2]),
      reading(
        'Weigh after dry back',
        'W2',
        W2,
        method.steps.at(-1)![2],
        remark.startsWith('corrected') ? 'was 737.7' : '',
      ),
    ],
    events: method.steps.map(([step, name, at]) => ({
      step,
      label: name,
      by,
      eventAt: later(at, index * 9),
      receivedAt: later(at, index * 9 + 1),
      note: remark.includes('79 min') && step === 'Abrade' ? 'the run before took longer: hose split' : '',
    })),
    results: [
      {
        key: 'difference',
        label: method.difference,
        value: plainDigits(loss),
        unit: 'g',
        shown: displayDigits(plainDigits(loss), { decimals }),
        refusal: '',
        calculation: null,
      },
      {
        key: 'per-area',
        label: method.result,
        value: plainDigits(perArea),
        unit: 'g/m²',
        shown: displayDigits(plainDigits(perArea), { decimals: 1 }),
        refusal: '',
        calculation,
      },
    ],
  }
  return { method, content, x, y: perArea, signed }
}

export const sampleMixes: SignedContent['mixes'] = ['10', '11', '12', '13', '14'].map((emulsion, index) => ({
  emulsionPercent: `${emulsion}.0`,
  waterPercent: ['11.0', '10.5', '10.0', '9.5', '9.0'][index]!,
  fillerPercent: '1.0',
  additivePercent: '0.2',
}))
