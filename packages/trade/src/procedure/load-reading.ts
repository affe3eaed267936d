import type { ReadingDeclaration } from './declaration.ts'

/** What is read of a whole load of an oven or bath: its temperature, and a check specimen weighed warm. Common practice, no source. */
export const loadReadings = {
  temperature: { key: 'temperature', label: 'Temperature', kind: 'number', unit: '°C', resolution: '0.1' },
  'warm-mass': { key: 'warm-mass', label: 'Mass, warm', kind: 'number', unit: 'g', resolution: '0.1' },
} as const satisfies Readonly<Record<string, ReadingDeclaration>>
