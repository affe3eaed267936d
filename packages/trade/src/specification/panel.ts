import type { DecimalSign } from '../quantity/display.ts'
import { endsOf } from './limit-decision.ts'
import { judge, limitWords, type Verdict } from './judge.ts'
import type { Limit, Specification } from './specification.ts'

/** What was found for one property of the panel. */
export type PanelOutcome = {
  readonly limitKey: string
  readonly value: string
  readonly unit: string
  /** At which content, in words. */
  readonly at?: string
  readonly n?: number
  /** Typed as a result, not computed here from readings. */
  readonly entered?: boolean
  /** What has to be said of the value beside how it is judged. */
  readonly said?: string
}

export type PanelVerdict = Verdict | 'not tested' | 'no limit held'
export type PanelRow = {
  readonly key: string
  readonly label: string
  readonly soak: string | null
  /** "at most 538 g/m²", or "no limit held". */
  readonly limit: string
  readonly limitSource: string
  readonly certainty: Limit['certainty']
  readonly value: string | null
  readonly unit: string | null
  readonly at: string | null
  readonly n: number | null
  readonly entered: boolean
  readonly verdict: PanelVerdict
  readonly margin: string | null
  readonly sentence: string
}

export type Panel = {
  readonly rows: readonly PanelRow[]
  /** `incomplete` while anything is not tested or undecided, whatever the others say; `fail` as soon as one fails. */
  readonly overall: 'pass' | 'fail' | 'incomplete'
  readonly sentence: string
}

/** One row for each property of the specification, tested or not. An incomplete panel never reads as passing. */
export function judgePanel(
  specification: Pick<Specification, 'limits'>,
  outcomes: readonly PanelOutcome[],
  sign?: DecimalSign,
): Panel {
  const rows = specification.limits.map((limit) => {
    const outcome = outcomes.find(({ limitKey }) => limitKey === limit.key)
    return outcome ? judgedRow(limit, outcome, sign) : untestedRow(limit, sign)
  })
  return { rows, ...overallOf(rows) }
}

function judgedRow(limit: Limit, outcome: PanelOutcome, sign?: DecimalSign): PanelRow {
  const { verdict, margin, sentence } = judge(limit, outcome, sign)
  return {
    ...rowText(limit, sign),
    value: outcome.value,
    unit: outcome.unit,
    at: outcome.at ?? null,
    n: outcome.n ?? null,
    entered: outcome.entered ?? false,
    // A value that is declared is found, and nothing is held against it.
    verdict: endsOf(limit) === undefined ? 'no limit held' : verdict,
    margin,
    sentence: [sentence, outcome.said, outcome.entered && 'Entered, not computed here.'].filter(Boolean).join(' '),
  }
}

function untestedRow(limit: Limit, sign?: DecimalSign): PanelRow {
  const nothing = { value: null, unit: null, at: null, n: null, entered: false, margin: null }
  return { ...rowText(limit, sign), ...nothing, verdict: 'not tested', sentence: `${limit.label}: not tested.` }
}

function rowText(limit: Limit, sign?: DecimalSign) {
  const { key, label, soak, source, certainty, condition } = limit
  const words = condition ? `${limitWords(limit, sign)}, ${condition}` : limitWords(limit, sign)
  return { key, label, soak, limit: words, limitSource: source, certainty }
}

/** The panel as a whole, from the verdicts of its rows. Nothing that is not passed is left unsaid. */
export function overallOf(rows: readonly Pick<PanelRow, 'label' | 'verdict'>[]): Pick<Panel, 'overall' | 'sentence'> {
  const labels = (...verdicts: readonly PanelVerdict[]) =>
    rows.filter(({ verdict }) => verdicts.includes(verdict)).map(({ label }) => inSentence(label))
  const failed = labels('fail')
  const untested = labels('not tested')
  const undecided = labels('undecided')
  const unheld = labels('no limit held')
  const sentence = [
    ...(rows.length === 0 ? ['The specification names no property.'] : []),
    ...(failed.length > 0 ? [`Does not meet its limit: ${failed.join('; ')}.`] : []),
    ...(untested.length > 0 ? [`Not tested: ${untested.join('; ')}.`] : []),
    ...(undecided.length > 0 ? [`Undecided: ${undecided.join('; ')}.`] : []),
    ...(unheld.length > 0 ? [`No limit held: ${unheld.join('; ')}.`] : []),
  ]
  if (failed.length > 0) return { overall: 'fail', sentence: sentence.join(' ') }
  const passed = labels('pass')
  if (passed.length === 0 || untested.length > 0 || undecided.length > 0)
    return { overall: 'incomplete', sentence: ['The panel is not complete.', ...sentence].join(' ') }
  return { overall: 'pass', sentence: ['Every property with a limit meets it.', ...sentence].join(' ') }
}

function inSentence(label: string): string {
  return label.charAt(0).toLowerCase() + label.slice(1)
}
