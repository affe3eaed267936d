import type { PanelResult } from '@curebook/contract/panel-results'
import type { DecimalSign } from '@curebook/trade/quantity/display'
import type { PanelOutcome } from '@curebook/trade/specification/panel'
import type { PanelClassPoint, PanelTestPoint } from '@curebook/trade/specification/panel-tests'
import type { Specification } from '@curebook/trade/specification/specification'

/** The content at which the panel is judged. */
export type JudgedContent = { readonly emulsionPercent: string; readonly residualPercent: string }

export type PanelFacts = {
  readonly rules: Specification
  readonly content: JudgedContent | null
  readonly sign: DecimalSign
  readonly entered: readonly PanelResult[]
  /** Results of finished tests of the panel, made at one content beside the series. */
  readonly tested: readonly PanelTestPoint[]
  /** The same where a class answers the limit. */
  readonly classed?: readonly PanelClassPoint[]
  /** Methods that answer each limit, by its key: the one to be asked first in front. */
  readonly methodsOf: Readonly<Record<string, readonly string[]>>
  /** Methods whose tests at one content are no replicates of each other. */
  readonly apart?: readonly string[]
  /** How many of its tests are asked for at a content, or at none; null where nothing says it. */
  readonly askedOf?: (methodKey: string, content: string | null) => number | null
  /** The same of the method behind a curve, by the curve's key. */
  readonly curveAsks?: (curveKey: string, content: string) => number | null
  /** What a method is called in a sentence; absent: its key. */
  readonly nameOf?: (methodKey: string) => string
  /** What the design holds beside the panel, in the limit's unit; a result of a test or of the panel goes before it. */
  readonly held?: readonly PanelOutcome[]
}
