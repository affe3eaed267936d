import type { Design } from '@curebook/contract/designs'
import type { RangeView } from '@curebook/contract/range'
import type { SignedTrialMixes } from '@curebook/contract/signed-content'
import type { Recommendation } from '@curebook/contract/recommendations'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { DecimalSign } from '@curebook/trade/quantity/display'
import type { WorkRecord } from '#features/bench/work-record.service'
import type { PutRight } from './put-right.ts'
import type { LateFinding } from './late-findings.ts'
import type { Enterer } from './review.repository.ts'
import type { FoundPoint } from './review-points.ts'
import type {
  findAcknowledgements,
  findLetterhead,
  UsedEdition,
  UsedEquipment,
  UsedInstrument,
} from './signed-content.repository.ts'

/** Everything that the content to be signed is put together from. */
export type SignedParts = {
  readonly design: Design
  readonly work: WorkRecord
  /** Times put right and readings taken back. */
  readonly putRight: readonly PutRight[]
  readonly findings: readonly LateFinding[]
  /** Who entered residue, moisture or a result of the panel. */
  readonly enterers: readonly Enterer[]
  readonly range: RangeView
  readonly trialMixes: SignedTrialMixes | null
  readonly recommendation: Recommendation | null
  readonly points: readonly FoundPoint[]
  readonly acknowledgements: Awaited<ReturnType<typeof findAcknowledgements>>
  readonly letterhead: Awaited<ReturnType<typeof findLetterhead>>
  readonly instruments: readonly UsedInstrument[]
  /** Ovens, baths and machines of each test's standing acts. */
  readonly equipment: readonly UsedEquipment[]
  readonly editions: readonly UsedEdition[]
  readonly methods: readonly MethodDeclaration[]
  readonly sign: DecimalSign
}
