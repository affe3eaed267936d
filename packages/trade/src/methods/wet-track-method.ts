import type { Answer, BuiltInEdition, MethodDeclaration, WeighedPair } from '../procedure/declaration.ts'
import { evaluateFormulas } from '../procedure/evaluation.ts'
import { practiceSource } from './edition-parameter.ts'
import { wetTrackSteps, wetTrackWindows } from './wet-track-steps.ts'
import { weighedDifferenceFormulas, weighedDifferenceResults, type WeighedDifference } from './weighed-difference.ts'

/** How long a disc lies in the bath, and which losses are not asked about after it. */
export type WetTrackSoak = {
  readonly words: string
  readonly plausible: WeighedPair['plausible']
}

/** A wet track abrasion method: what is its own beside the steps, windows and formula that all of them share. */
export type WetTrackText = Pick<MethodDeclaration, 'key' | 'name' | 'shortName'> & {
  /** The limit that its loss per area answers. */
  readonly answer: Pick<Answer, 'property' | 'soak'>
  readonly soak: WetTrackSoak
  /** Where the formula stands. */
  readonly source: string
  readonly editions: readonly BuiltInEdition[]
  /** What the result per area is called: "Loss per area". */
  readonly perArea?: string
  /** The standard's reporting rule of the result per area. */
  readonly reporting?: { readonly words: string; readonly source: string }
}

/** Loss = W1 − W2; loss per area = loss × factor of the machine that was used, one for each unit that it holds. */
export function wetTrackMethod(text: WetTrackText): MethodDeclaration {
  const { key, name, shortName, answer, source, editions, reporting } = text
  const { words, plausible } = text.soak
  const steps = wetTrackSteps(words)
  const pair: WeighedPair = {
    before: { step: 'weigh-before', key: 'mass' },
    after: { step: 'weigh-after', key: 'mass' },
    sense: 'loss',
    unit: 'g',
    plausible,
    seriesSpread: { percent: '5', source: practiceSource },
  }
  const weighed: WeighedDifference = {
    pair,
    difference: { key: 'loss', label: `Loss, ${words}`, displayDecimals: 1 },
    perArea: { key: 'loss-per-area', label: `${text.perArea ?? 'Loss per area'}, ${words}` },
    source,
    impossible: (amount) => `Gain of ${amount}: still wet, or not this disc? Dry on and weigh again.`,
    factorWords: 'factor of the wet track machine',
  }
  return {
    key,
    name,
    shortName,
    answers: [{ ...answer, result: 'loss-per-area' }],
    place: 'series',
    madeFrom: 'batch',
    form: 'disc',
    computation: 1,
    steps,
    windows: wetTrackWindows(words),
    editions,
    machine: { kind: 'wet-track-machine', factorKey: 'area' },
    resultOfRecord: 'loss-per-area',
    results: weighedDifferenceResults(weighed).map((result) =>
      reporting && result.key === 'loss-per-area' ? { ...result, reporting } : result,
    ),
    pair,
    evaluate: (readings, setup) =>
      evaluateFormulas(steps, readings, weighedDifferenceFormulas(weighed, readings, setup)),
  }
}
