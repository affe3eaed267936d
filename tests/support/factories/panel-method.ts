import { createCalculation } from '@curebook/trade/procedure/calculation-builder'
import type { MethodDeclaration, StepDeclaration } from '@curebook/trade/procedure/declaration'
import { evaluateFormulas, readingAt, resultOf } from '@curebook/trade/procedure/evaluation'

const invented = 'Invented for this test'
const steps: readonly StepDeclaration[] = [
  {
    key: 'stir',
    title: 'Stir',
    instruction: 'Stir until it breaks.',
    cautions: [],
    equipment: [],
    conditions: [],
    events: [],
    readings: [
      { key: 'seconds', label: 'Until it broke', kind: 'number', unit: 's', resolution: '1' },
      { key: 'room', label: 'Room', kind: 'number', unit: '°C', resolution: '0.1', optional: true },
    ],
  },
]

/** A method of the panel: a time, the class that it falls into, and a finding where the room was warm. Nobody tests so. */
export const stirring: MethodDeclaration = {
  key: 'made-up-stirring',
  name: 'Made-up stirring',
  shortName: 'Stirring',
  answers: [{ property: 'mix-time', result: 'time' }],
  place: 'panel',
  madeFrom: 'batch',
  portionParameter: 'portion',
  form: 'cup',
  computation: 1,
  steps,
  windows: [],
  editions: [
    {
      key: 'made-up-1',
      designation: 'Made-up method',
      year: '2026',
      effectiveFrom: '2026-01-01',
      parameters: {
        portion: { value: '100', unit: 'g', label: 'Dry aggregate', source: invented, certainty: 'common practice' },
      },
    },
  ],
  results: [
    { key: 'time', label: 'Stirring time', unit: 's', displayDecimals: 0 },
    {
      key: 'class',
      label: 'Pace',
      displayDecimals: 0,
      choices: [
        { key: 'slow', label: 'Slow' },
        { key: 'quick', label: 'Quick' },
      ],
    },
  ],
  resultOfRecord: 'time',
  chart: {
    key: 'made-up-pace',
    title: 'Pace by room',
    x: { label: 'Room', unit: '°C' },
    y: { label: 'Stirring time', unit: 's' },
    lines: [{ points: [{ x: { reading: { step: 'stir', key: 'room' } }, y: { result: 'time' } }] }],
  },
  evaluate: (readings) => {
    const work = () => {
      const { id, key, value } = readingAt(readings, 'stir', 'seconds')
      const calculation = createCalculation()
      calculation.input({ symbol: 't', name: 'Time', unit: 's', source: invented }, value, { kind: 'reading', id, key })
      return calculation.calculation()
    }
    const room = readings.find(({ key }) => key === 'room')
    const findings = room && Number(room.value) > 27 ? { findings: [`The room was at ${room.value} °C.`] } : {}
    return evaluateFormulas(steps, readings, [
      {
        keys: ['time'],
        compute: () => [
          { ...resultOf(work(), { key: 'time', label: 'Stirring time', displayDecimals: 0 }), ...findings },
        ],
      },
      {
        keys: ['class'],
        compute: () => [
          {
            key: 'class',
            label: 'Pace',
            choice: Number(readingAt(readings, 'stir', 'seconds').value) < 150 ? 'quick' : 'slow',
            calculation: work(),
          },
        ],
      },
    ])
  },
}

/** The same done to something made of the materials. */
export const ofMaterials: MethodDeclaration = {
  ...stirring,
  key: 'made-up-of-materials',
  name: 'Made-up stirring of the materials',
  shortName: 'Of materials',
  answers: [{ property: 'wet-stripping', result: 'time' }],
  madeFrom: 'materials',
  form: 'pill',
}
