import type { Calculation } from './calculation.ts'
import type { MethodChart } from './method-chart.ts'
import type { RefusalCode } from '../quantity/method-input-error.ts'

/** How sure we are of a number: read in public text, practised without a source, or remembered and to be checked. */
export type Certainty = 'published' | 'common practice' | 'from memory'

/** One bound, window or tolerance of an edition. `value` is a decimal string in `unit`. */
export type EditionParameter = {
  readonly value: string
  readonly unit: string
  /** What it governs, in words. */
  readonly label: string
  /** Designation and year, or "common practice, no source". */
  readonly source: string
  readonly clause?: string
  readonly certainty: Certainty
}
export type EditionParameters = Readonly<Record<string, EditionParameter>>

/** A complete parameter set of a method, as shipped. A laboratory's own edition is a record of the same shape. */
export type BuiltInEdition = {
  readonly key: string
  readonly designation: string
  readonly year: string
  readonly effectiveFrom: string
  readonly parameters: EditionParameters
}

export type ReadingKind = 'number' | 'count' | 'choice' | 'text'

/** One thing to read at a step. Ranges are asked about, never refused. */
export type ReadingDeclaration = {
  readonly key: string
  readonly label: string
  readonly kind: ReadingKind
  /** Unit the number is kept in; units it may also be typed in are those that convert exactly to it. */
  readonly unit?: string
  /** Smallest step an instrument of the edition shows, in `unit`; finer is asked about. */
  readonly resolution?: string
  /** Outside: asked about, then kept. Decimal strings in `unit`. */
  readonly plausible?: { readonly from: string; readonly to: string; readonly source: string }
  readonly choices?: readonly { readonly key: string; readonly label: string }[]
  /** An optional reading never holds a step open. */
  readonly optional?: boolean
  /** Kind of instrument that shows it: its capacity bounds what can be typed. */
  readonly instrument?: InstrumentKind
  /** How many times it is read (default 1). */
  readonly repeats?: number
  /** For a batch component: key of the target on the batch sheet; a pour off target by more than the tolerance is asked about. */
  readonly target?: { readonly component: string; readonly toleranceParameter: string }
  /** A time that runs from this act on: whoever enters it may be offered what has passed since, and still confirms it. */
  readonly since?: { readonly step: string; readonly act: StepEventKind }
}

export type InstrumentKind =
  'balance' | 'wet-track-machine' | 'loaded-wheel' | 'cohesion-tester' | 'oven' | 'bath' | 'thermometer' | 'timer'

/** A condition to hold while a step lasts, from edition parameters (for example oven 60 ± 3 °C). */
export type ConditionDeclaration = {
  readonly label: string
  readonly targetParameter: string
  readonly toleranceParameter?: string
}

/** What a person confirms: the step's start, its end, or neither (a step of readings only). */
export type StepEventKind = 'start' | 'end'

export type StepDeclaration = {
  readonly key: string
  /** Imperative, short: "Weigh after cure (W1)". */
  readonly title: string
  readonly instruction: string
  /** Usual cautions, shown before the button of the step. */
  readonly cautions: readonly string[]
  /** Events to confirm, in order. A step is done when all its events and required readings are there. */
  readonly events: readonly StepEventKind[]
  /** Words of the buttons for the events: { start: 'In the oven', end: 'Out of the oven' }. */
  readonly eventLabels?: Readonly<Partial<Record<StepEventKind, string>>>
  readonly readings: readonly ReadingDeclaration[]
  readonly equipment: readonly InstrumentKind[]
  readonly conditions: readonly ConditionDeclaration[]
  /** A machine run of a set length in seconds; the parameter or the machine's record holds it. */
  readonly runSecondsParameter?: string
  /** A machine run that is counted in cycles: the parameters of their number and of how many a minute holds. */
  readonly runCycles?: { readonly totalParameter: string; readonly perMinuteParameter: string }
  /**
   * Steps that must be done before this one begins, because afterwards they could never be done (W1 after sanding).
   * Every other order is advice: acts can be confirmed later with their own time.
   */
  readonly needs?: readonly string[]
}

/** Two weighings of one specimen whose difference is the result: what a slip is looked for in. */
export type WeighedPair = {
  readonly before: { readonly step: string; readonly key: string }
  readonly after: { readonly step: string; readonly key: string }
  /** Whether the specimen can only become lighter or only heavier. */
  readonly sense: 'loss' | 'gain'
  readonly unit: string
  /** Outside: asked about, then kept. Decimal strings in `unit`. */
  readonly plausible: { readonly from: string; readonly to: string; readonly source: string }
  /** How far a first weighing may lie from the median of its series, in per cent, before it is spoken of. */
  readonly seriesSpread?: { readonly percent: string; readonly source: string }
}

/** A window: an act must come no earlier and no later than so long after another act. */
export type WindowDeclaration = {
  readonly key: string
  /** The act that is bounded. `reading` means the step's last required reading. */
  readonly step: string
  readonly act: StepEventKind | 'reading'
  readonly after: { readonly step: string; readonly act: StepEventKind | 'reading' }
  /** Edition parameters (durations); absent = open on that side. */
  readonly earliestParameter?: string
  readonly latestParameter?: string
  /** What being late means: a miss must be decided, a finding is recorded and reported. Early is always a miss. */
  readonly late: 'miss' | 'finding'
  readonly label: string
  /**
   * Of an act that need not be done: told while it is open, judged once the act is there, and never waited for or missed. An
   * edition made before the window holds none of its parameters; by that one it is not judged.
   */
  readonly optional?: true
}

/**
 * What is tested. `cup`: mix stirred by hand and never cast; `ring`: cast in a ring for the cohesion tester; `loose`: mix or
 * field sample that is taken apart.
 */
export type ItemForm = 'batch' | 'disc' | 'strip' | 'biscuit' | 'pill' | 'cup' | 'ring' | 'loose'

/** A reading as `evaluate` sees it: current (not superseded), counting, converted to the declared unit. */
export type ObservedReading = {
  readonly id: string
  readonly step: string
  readonly key: string
  readonly repeat: number
  /** Decimal digits for number and count; the choice's key or the text otherwise. */
  readonly value: string
  readonly unit?: string
}

/** A machine's factor as published, in one unit: never converted from another. */
export type MachineFactor = {
  readonly id: string
  readonly value: string
  readonly unit: string
  readonly source: string
}

/** What the formula needs besides readings. */
export type EvaluationSetup = {
  readonly parameters: EditionParameters
  /** Factors of the machine that was used, one for each unit it holds. */
  readonly factors: readonly MachineFactor[]
  /** Other results or entered values by key: residue, moisture … */
  readonly inputs: Readonly<
    Record<string, { readonly id: string; readonly value: string; readonly unit: string; readonly source: string }>
  >
}

export type ComputedResult = {
  /** Key within the method: 'loss', 'loss-per-area' … one result for each key and unit. */
  readonly key: string
  readonly label: string
  /** Full precision, never rounded. */
  readonly value: string
  readonly unit: string
  /** Decimals for display and report, and the rule by which they are cut ("display only, halves to even"). */
  readonly displayDecimals: number
  readonly calculation: Calculation
  /** What was read outside the method's limits and is used all the same, a sentence each. */
  readonly findings?: readonly string[]
}

/** A class that readings fall into, no number: quick-set, grade A. */
export type ComputedChoice = {
  readonly key: string
  readonly label: string
  /** Key of the class, one of the declared `choices`. */
  readonly choice: string
  /** The numbers it rests on. */
  readonly calculation: Calculation
  readonly findings?: readonly string[]
}

/** Why a result could not be computed though its readings are there. The readings stay. */
export type ResultRefusal = {
  readonly key: string
  readonly code: RefusalCode
  readonly text: string
  readonly detail: Readonly<Record<string, string>>
}

export type Evaluation = {
  readonly results: readonly ComputedResult[]
  /** Absent where the method has none. */
  readonly choices?: readonly ComputedChoice[]
  readonly refusals: readonly ResultRefusal[]
  /** Readings still to be taken, as `step/key/repeat`. */
  readonly missing: readonly string[]
}

/** A result that `evaluate` may give, in words: what a stored result is called and how many decimals of it are shown. */
export type ResultDeclaration = {
  readonly key: string
  readonly label: string
  /** Absent: every unit of the key. */
  readonly unit?: string
  readonly displayDecimals: number
  /** For a class: the classes there are. */
  readonly choices?: readonly { readonly key: string; readonly label: string }[]
  /** How the standard has it reported, in words: "to the nearest 0.1 kg·cm". Source beside it. */
  readonly reporting?: { readonly words: string; readonly source: string }
  /**
   * Parameter of its own edition: limit r, in the unit of the result, by which two results of one operator on the same
   * material differ at most, 19 times in 20. Absent: none is published.
   */
  readonly repeatability?: string
}

/** A property of a panel, and the result that answers it. */
export type Answer = {
  readonly property: string
  readonly soak?: string
  /** Key of the result, compared with the limit in the limit's unit. */
  readonly result: string
  /** Where that result is a class: keys of the classes that meet it. */
  readonly passes?: readonly string[]
}

/** A test method: data and one pure function. Adding a method is one file and its test. */
export type MethodDeclaration = {
  readonly key: string
  readonly name: string
  /** For tight places: "Abrasion, 1 h". */
  readonly shortName: string
  /** Which properties of a panel it answers, e.g. { property: 'abrasion-loss', soak: '1-hour', result: 'loss-per-area' }. */
  readonly answers: readonly Answer[]
  /** `series`: at each content, for a curve. `panel`: at the content that is to be judged, beside the series. */
  readonly place: 'series' | 'panel'
  /** `batch`: a batch of the mix is weighed for it first. `materials`: it is made of the materials, or is a sample. */
  readonly madeFrom: 'batch' | 'materials'
  /** Done on a sample of the road: it is made of none of the design's materials as they lie in the laboratory. */
  readonly ofSample?: true
  /** Parameter of its own edition: dry aggregate of its batch in g. Absent: the batch edition's for its form. */
  readonly portionParameter?: string
  /**
   * Weighings of its batch that its formula takes as readings of this step, under the same keys: they are asked for once, with
   * the batch. A reading of its own in their place goes before them.
   */
  readonly batchReadings?: { readonly step: string; readonly keys: readonly string[] }
  readonly form: ItemForm
  /** Raised by one whenever the same readings could give another number. */
  readonly computation: number
  readonly steps: readonly StepDeclaration[]
  readonly windows: readonly WindowDeclaration[]
  readonly editions: readonly BuiltInEdition[]
  readonly results: readonly ResultDeclaration[]
  readonly evaluate: (readings: readonly ObservedReading[], setup: EvaluationSetup) => Evaluation
  /** The machine kind whose factors `evaluate` needs, and the factor key on its record. */
  readonly machine?: { readonly kind: InstrumentKind; readonly factorKey: 'area' | 'frame' }
  /** Key of the result that a curve or limit uses; its unit is the limit's. */
  readonly resultOfRecord: string
  /** Why its tests at one content are no replicates of each other, in words; absent: they are. */
  readonly noReplicates?: string
  /** How its tests are drawn together; absent: they are not. */
  readonly chart?: MethodChart
  /** For a method whose result is a difference of two weighings. */
  readonly pair?: WeighedPair
}
