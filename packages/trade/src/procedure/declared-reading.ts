import type { MethodDeclaration, ReadingDeclaration } from './declaration.ts'

/**
 * What a method declares of a reading at a step. Weighings that stand with its batch are asked for there, and yet were or may
 * be read at the step that takes them: devices hold such entries, and records such readings. Of those the batch says what
 * they are. Undefined where neither knows the reading.
 */
export function declaredReading(
  methods: readonly MethodDeclaration[],
  { steps, batchReadings }: Pick<MethodDeclaration, 'steps' | 'batchReadings'>,
  { step, key }: { readonly step: string; readonly key: string },
): ReadingDeclaration | undefined {
  const own = steps.find((one) => one.key === step)?.readings.find((reading) => reading.key === key)
  if (own || batchReadings?.step !== step || !batchReadings.keys.includes(key)) return own
  const ofBatch = methods.find((method) => method.key === 'batch')?.steps.flatMap(({ readings }) => readings)
  const weighed = ofBatch?.find((reading) => reading.key === key)
  if (weighed === undefined) return undefined
  // Its target is the batch's: nothing is drawn of a sample at this step.
  const { target: _, ...reading } = weighed
  return { ...reading, optional: true }
}
