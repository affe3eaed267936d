import type { Acknowledge, Review, ReviewPoint, SendBack, Sign } from '@curebook/contract/review'
import type { SignedContent } from '@curebook/contract/signed-content'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { rowsSqlOf, type RowsSql } from '#platform/sql-rows'
import type { DesignsService } from '#features/designs/designs.service'
import type { RangeService } from '#features/range/range.service'
import { replicatesIn } from '#features/range/replicates.service'
import { findStandingRecommendation } from '#features/range/standing-recommendation.service'
import { toRecommendation } from '#features/recommendations/recommendations.service'
import type { Actor } from '#platform/actor'
import type { Auth } from '#platform/auth'
import { type Canonical, canonicalJson, sha256 } from '#platform/canonical-json'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField } from '#platform/problem'
import { fewPoints } from './few-points.ts'
import { findLateFindings } from './late-findings.ts'
import { withLeftOutEffects } from './left-out-effects.ts'
import { mayApprove, mayCheck, type SignerFacts } from './may-sign.ts'
import { oddFindings } from './odd-points.ts'
import { reportStatements } from './report-statements.ts'
import { reviewPoints, type FoundPoint } from './review-points.ts'
import { reckonedOfRevision, scatterPoints } from './scatter-points.ts'
import { sentBackPoints } from './send-back-points.ts'
import { specificationPoint } from './specification-point.ts'
import { findAcknowledgements, findEditions, findEquipment, findInstruments, findLetterhead } from './signed-content.repository.ts'
import { signedContent } from './signed-content.ts'
import { putRightOf } from './put-right.ts'
import { heldAgainst, sinceSigned } from './since-signed.ts'
import {
  changedSince,
  findDoers,
  findEnterers,
  findReportOf,
  findSendBack,
  findSignatures,
  findSignedBody,
  holdTests,
  insertAcknowledgement,
  insertSendBack,
  insertSignature,
  isSentBack,
} from './review.repository.ts'
import { signedTrialMixesIn } from '#features/trials/signed-trials.service'
import { workContent } from '@curebook/contract/work-content'
import { dayOfInstant, notAuthorisedIn } from '#features/people/authorised.service'
import { workRecordIn } from '#features/bench/work-record.service'

export type ReviewService = ReturnType<typeof createReviewService>
type Deps = {
  laboratory: Laboratory
  designs: DesignsService
  range: RangeService
  auth: Pick<Auth, 'verifyPassword'>
  methods: readonly MethodDeclaration[]
  sealNow: () => Promise<void>
}

/** What a signature given now would sign. */
type Standing = {
  readonly content: SignedContent
  readonly body: string
  readonly workBody: string
  readonly review: Review
}

/** Checking, signing and sending back a revision: each signature is of exactly the content that was shown. */
export function createReviewService({ laboratory, designs, range, auth, methods, sealNow }: Deps) {
  async function standingIn(tx: LaboratoryTransaction, designId: string, number?: number): Promise<Standing> {
    const sql = rowsSqlOf(tx)
    const context = await range.contextIn(tx, designId, number)
    const { design, view, computed, sign } = context
    const work = await workRecordIn(tx, designs, designId, design.revision)
    const testIds = work.specimens.flatMap(({ testId, batchTestId }) => [testId, batchTestId])
    const findings = await findLateFindings(sql, methods, testIds)
    const letterhead = await findLetterhead(tx, design.projectId)
    const putRight = putRightOf(work, methods, letterhead.laboratory.zone)
    const odd = oddFindings(work, methods)
    const { groups } = await replicatesIn(sql, context, methods)
    const acknowledgements = await findAcknowledgements(tx, design.revisionId)
    const reckoned = (found: readonly FoundPoint[]) => reckonedOfRevision(found, design.state, acknowledgements)
    const few = reckoned(fewPoints(view, context.counts))
    const scatter = reckoned(scatterPoints(groups, work.specimens, odd, { sign }))
    const points = withLeftOutEffects(
      [
        ...specificationPoint(design, acknowledgements),
        ...reviewPoints(work, view, findings, { odd, scatter, few }, putRight),
      ],
      work.specimens,
      computed,
    )
    const row = await findStandingRecommendation(tx, design.revisionId)
    const recommendation = row && design.residue ? toRecommendation(row, design.residue.value) : null
    const enterers = await findEnterers(sql, designId, design.revision)
    const content: SignedContent = {
      ...signedContent({
        design,
        work,
        putRight,
        findings,
        enterers,
        range: view,
        trialMixes: await signedTrialMixesIn(tx, designId, design.revision),
        recommendation,
        points,
        acknowledgements,
        letterhead,
        instruments: await findInstruments(sql, testIds),
        equipment: await findEquipment(sql, testIds),
        editions: await findEditions(sql, testIds),
        methods,
        sign,
      }),
    }
    content.statements = reportStatements(content)
    const body = canonicalJson(content as unknown as Canonical)
    const workBody = canonicalJson(workContent(content) as unknown as Canonical)
    const digest = sha256(body).toString('hex')
    const workDigest = sha256(workBody).toString('hex')
    const signatures = await findSignatures(tx, design.revisionId)
    const doers = await findDoers(sql, testIds)
    const doneBy = [
      ...doers,
      ...enterers.filter(({ membershipId }) => doers.every((doer) => doer.membershipId !== membershipId)),
    ].sort((a, b) => (a.name < b.name ? -1 : 1))
    const acknowledged = points.map((point): ReviewPoint => {
      const found = acknowledgements.find(({ pointKey }) => pointKey === point.key)
      return {
        ...point,
        effect: point.effect ?? null,
        acknowledged: found
          ? {
              word: found.word,
              by: { membershipId: found.by.id, name: found.by.name, initials: found.by.initials },
              at: found.at.toISOString(),
            }
          : null,
      }
    })
    const facts: SignerFacts = {
      actor: tx.actor,
      state: design.state,
      recommendation,
      points: acknowledged,
      doneBy,
      begun: doers.length > 0,
      signatures,
      workDigest,
      notAuthorised: await signingFaults(sql),
    }
    const approval = signatures.find(({ meaning }) => meaning === 'approved')
    const held = heldAgainst(signatures, { digest, workDigest })
    return {
      content,
      body,
      workBody,
      review: {
        designId,
        revisionId: design.revisionId,
        revision: design.revision,
        state: design.state,
        recommendation,
        points: acknowledged,
        digest,
        workDigest,
        signatures,
        doneBy,
        parts: content.people,
        mayCheck: mayCheck(facts),
        mayApprove: mayApprove(facts),
        reportId: await findReportOf(tx, design.revisionId),
        changedSinceApproval: approval ? await changedSince(sql, testIds, approval.id) : [],
        sinceSigned: held ? sinceSigned(held, await findSignedBody(tx, held.id), content) : null,
        sentBack: await findSendBack(tx, design.revisionId),
      },
    }
  }

  const read = (actor: Actor, designId: string, number?: number): Promise<Review> =>
    laboratory.inLaboratory(actor, async (tx) => (await standingIn(tx, designId, number)).review, {
      isolationLevel: 'RepeatableRead',
    })

  /** A word on each of these points, all or none: the work is evaluated once before and once after, however many they are. */
  const acknowledgeEach = (actor: Actor, designId: string, inputs: readonly Acknowledge[]): Promise<Review> =>
    laboratory.inLaboratory(actor, async (tx) => {
      await holdDesign(tx, designId)
      const { review } = await standingIn(tx, designId)
      refuseApproved(review)
      for (const input of inputs) {
        const point = review.points.find(({ key }) => key === input.pointKey)
        if (!point)
          throw invalidField(
            'pointKey',
            'This point stands in the list no more: what it was about has changed. Look at the list again.',
          )
        if (point.blocking) throw new AppError('wrong-state', `A word does not settle this: ${point.sentence}`)
        if (!(await insertAcknowledgement(tx, review.revisionId, input))) continue
        tx.record({
          action: 'review:acknowledge',
          subjectKind: 'acknowledgement',
          subjectId: input.id,
          topics: topicsOf(review),
          content: { revision: review.revisionId, point: point.sentence, word: input.word },
        })
      }
      return (await standingIn(tx, designId)).review
    })

  const acknowledge = (actor: Actor, designId: string, input: Acknowledge): Promise<Review> =>
    acknowledgeEach(actor, designId, [input])

  /** The work is right: said by somebody who did not do it. */
  async function check(actor: Actor, designId: string, input: Sign, address?: string): Promise<Review> {
    return sign(actor, designId, input, address, 'checked')
  }

  /** The engineer approves: after this nothing of the revision changes. */
  async function approve(actor: Actor, designId: string, input: Sign, address?: string): Promise<Review> {
    return sign(actor, designId, input, address, 'approved')
  }

  async function sign(
    actor: Actor,
    designId: string,
    input: Sign,
    address: string | undefined,
    meaning: 'checked' | 'approved',
  ): Promise<Review> {
    const proof = await auth.verifyPassword(actor, input.password, address)
    // What is signed stands in the sealed chain before the signature does.
    await sealNow()
    const review = await laboratory.inLaboratory(actor, async (tx) => {
      await holdDesign(tx, designId)
      await holdTests(rowsSqlOf(tx), designId)
      const standing = await standingIn(tx, designId)
      if (standing.review.signatures.some(({ id }) => id === input.id)) return standing.review
      const { review: now } = standing
      const may = meaning === 'checked' ? now.mayCheck : now.mayApprove
      if (!may.allowed) throw new AppError('refused-by-rule', may.sentence)
      const shown = meaning === 'checked' ? now.workDigest : now.digest
      if (shown !== input.digest)
        throw new AppError(
          'changed-meanwhile',
          'The content has changed since it was shown to you. Look at it again, then sign.',
          { extra: { shown: input.digest, now: shown } },
        )
      const body = meaning === 'checked' ? standing.workBody : standing.body
      await insertSignature(tx, {
        id: input.id,
        kind: meaning === 'checked' ? 'check' : 'revision',
        revisionId: now.revisionId,
        body,
        meaning,
        statement: input.statement,
        proof,
        topics: topicsOf(now),
      })
      if (meaning === 'approved')
        await tx.prisma.designRevision.updateMany({
          where: { labId: actor.labId, id: now.revisionId },
          data: { state: 'approved', version: { increment: 1 } },
        })
      return (await standingIn(tx, designId)).review
    })
    await sealNow()
    return review
  }

  const sendBack = (actor: Actor, designId: string, input: SendBack): Promise<Review> =>
    laboratory.inLaboratory(actor, async (tx) => {
      await holdDesign(tx, designId)
      const { review, content } = await standingIn(tx, designId)
      // Sent again after a lost answer, or twice at once, it is the same sending back.
      if (await isSentBack(tx, review.revisionId, input)) return review
      if (review.state !== 'in-review')
        throw new AppError(
          'wrong-state',
          `Revision ${review.revision} is not in review; only what is in review can be sent back.`,
        )
      const points = sentBackPoints(input.points, { points: review.points, specimens: content.specimens })
      await insertSendBack(tx, review.revisionId, input, points)
      await tx.prisma.designRevision.updateMany({
        where: { labId: actor.labId, id: review.revisionId },
        data: { state: 'sent-back', version: { increment: 1 } },
      })
      tx.record({
        action: 'revision:send-back',
        subjectKind: 'send-back',
        subjectId: input.id,
        topics: topicsOf(review),
        content: { revision: review.revisionId, reason: input.reason, points: points.map(({ text }) => text) },
      })
      return (await standingIn(tx, designId)).review
    })

  return { read, acknowledge, acknowledgeEach, check, approve, sendBack, standingIn }
}

/** Why whoever asks may not sign today, by meaning; null where they may or nobody is authorised by name. */
async function signingFaults(sql: RowsSql): Promise<SignerFacts['notAuthorised']> {
  const { membershipId, name } = sql.actor
  const day = await dayOfInstant(sql, sql.at)
  const fault = (activity: string, label: string) => notAuthorisedIn(sql, { membershipId, name, activity, label, day })
  return { check: await fault('check', 'Check the work'), approve: await fault('approve', 'Approve') }
}

/** Signing, sending back and recommending follow one another. */
async function holdDesign(tx: LaboratoryTransaction, designId: string): Promise<void> {
  await tx.prisma
    .$queryRaw`select id from design where lab_id = ${tx.actor.labId}::uuid and id = ${designId}::uuid for update`
}

function refuseApproved({ state, revision }: Review): void {
  if (state === 'approved')
    throw new AppError(
      'wrong-state',
      `Revision ${revision} is approved and does not change. Start a new revision from it.`,
    )
}

function topicsOf({ designId, revisionId }: Pick<Review, 'designId' | 'revisionId'>): string[] {
  return [`design:${designId}`, `revision:${revisionId}`]
}
