import type { ReviewPoint } from '@curebook/contract/review'
import design from '@curebook/trade/reference-cases/marrowdale-design.json' with { type: 'json' }
import type { ControlledClock } from '#platform/clock'
import { newId } from '#platform/uuid'
import type { Services } from '../services.ts'
import { demoCalendar } from './demo-calendar.ts'
import { prepareBags } from './demo-custody.ts'
import { makeDemoInstruments } from './demo-instruments.ts'
import { makeDemoLaboratory } from './demo-laboratory.ts'
import { receiveMaterials, setUpDesign } from './demo-setup.ts'
import { confirmRecommended } from './marrowdale-confirmation.ts'
import { stirTrialMixes } from './marrowdale-cups.ts'
import { playMarrowdaleBench, type Cast } from './marrowdale-story.ts'
import { otherDesigns, type OtherDesign } from './other-designs.ts'
import { tellOtherDesign } from './other-stories.ts'
import { soakPills } from './panel-pills.ts'
import { startVerification } from './verification-story.ts'

export type DemoOptions = {
  readonly services: Services
  readonly clock: ControlledClock
  readonly now: Date
  readonly password: string
  readonly onStep?: (step: string) => void
}

/**
 * Makes the demonstration laboratory through the product's own services, told on a controlled clock: a finished and reported
 * design with its accidents, one whose contents all meet with the tests of its panel, one without a range, a slurry, and a verification under way. No window, deviation or computed result is typed in; what no
 * method here computes is entered, and says so.
 * @returns ids, for tests that look at what came out
 */
export async function makeDemo({ services, clock, now, password, onStep = () => undefined }: DemoOptions) {
  const calendar = demoCalendar(now)
  onStep('laboratory, people, instruments')
  clock.set(calendar.at(-75, '09:00').toISOString())
  const { people, clientId, otherClientId } = await makeDemoLaboratory(services, password)
  const instruments = await makeDemoInstruments(services, people.manager, calendar)
  const reportTo = 'Ines Calder, Marrowdale County Roads'
  const cast: Cast = { services, clock, calendar, people, instruments }

  const others = {} as Record<OtherDesign['key'], string>
  for (const told of otherDesigns) {
    onStep(told.designName)
    const own = told.client === 'marrowdale'
    others[told.key] = await tellOtherDesign(cast, told, {
      now,
      clientId: own ? clientId : otherClientId,
      reportTo: own ? reportTo : 'Works office, Pellworth Airfield Trust',
      copiesTo: '',
    })
  }

  onStep('materials received')
  clock.set(calendar.at(1, '08:40').toISOString())
  const materials = await receiveMaterials(services, people, calendar)
  clock.set(calendar.at(1, '15:00').toISOString())
  const shared = {
    clientId,
    materials,
    reportTo,
    copiesTo: 'Road owner’s file',
  }
  const designId = await setUpDesign(services, people, calendar, {
    ...shared,
    kind: 'full',
    projectName: 'Northern network resurfacing',
    designName: 'Micro-surfacing Type II, Skerry Edge',
    specificationName: 'A143 Type II values as adopted, heavy traffic',
  })

  onStep('bags prepared')
  await prepareBags(cast, materials)

  onStep('trial mixes')
  await stirTrialMixes(cast, designId)

  onStep('binder series, 47 specimens')
  clock.set(calendar.at(3, '08:00').toISOString())
  const contents = design.contents.map((content) => ({ ...content }))
  const discs = [design.methods['1-hour'], design.methods['6-day']].map((methodKey) => ({
    methodKey,
    replicates: 3,
    spares:
      methodKey === design.methods['1-hour']
        ? ['10', '12'].map((emulsionPercent) => ({ emulsionPercent, count: 1 }))
        : [],
  }))
  const { items: planned } = await services.designs.plan(
    people.engineer,
    designId,
    { contents, methods: [...discs, { methodKey: design.methods.strip, replicates: 3, spares: [] }] },
    newId(),
  )
  const byForm = (form: string) => planned.filter((specimen) => specimen.form === form).map(({ testId }) => testId)
  await services.schedule.assign(
    people.manager,
    { testIds: byForm('disc'), to: people.technician.membershipId },
    newId(),
  )
  await services.schedule.assign(
    people.manager,
    { testIds: byForm('strip'), to: people.technician2.membershipId },
    newId(),
  )
  clock.set(calendar.at(3, '08:10').toISOString())
  for (const person of [people.technician, people.technician2])
    for (const { id } of (await services.notices.unseen(person)).items) await services.notices.see(person, id)
  await playMarrowdaleBench(cast, planned)

  onStep('recommendation, review')
  clock.set(calendar.at(12, '14:00').toISOString())
  await services.recommendations.recommend(people.engineer, designId, {
    id: newId(),
    emulsionPercent: '12.0',
    toleranceResidualPercent: '0.5',
    water: { from: '9', to: '11' },
    filler: { from: '0.5', to: '1.5' },
    additive: { from: '0.1', to: '0.4' },
    reason: '7.0 to 8.0 lies inside 6.9 to 8.3, below the midpoint for heavy traffic.',
  })
  await confirmRecommended(cast, designId)
  const reportId = await reviewAndReport(cast, designId, password)

  onStep('pills in the bath')
  await soakPills(cast, others.open, now)

  onStep('verification under way')
  const verificationId = await startVerification(cast, { ...shared, now })
  await services.sealer.sealNow()
  return { people, instruments, designId, verificationId, reportId, others }
}

/** Settles every point with a word, checks, approves and issues, each by whom it may be. */
async function reviewAndReport(
  { services, clock, calendar, people }: Cast,
  designId: string,
  password: string,
): Promise<string> {
  const { manager, engineer } = people
  clock.set(calendar.at(16, '09:00').toISOString())
  const { points } = await services.review.read(engineer, designId)
  const words = points.map((point) => ({ id: newId(), pointKey: point.key, word: wordOn(point) }))
  await services.review.acknowledgeEach(engineer, designId, words)
  clock.set(calendar.at(16, '10:00').toISOString())
  const { workDigest } = await services.review.read(manager, designId)
  await services.review.check(
    manager,
    designId,
    { id: newId(), digest: workDigest, password, statement: 'Readings, windows and arithmetic looked through.' },
    'demo',
  )
  clock.set(calendar.at(16, '11:00').toISOString())
  const { digest } = await services.review.read(engineer, designId)
  const { revisionId } = await services.review.approve(
    engineer,
    designId,
    { id: newId(), digest, password, statement: 'Approved for the contract named.' },
    'demo',
  )
  clock.set(calendar.at(16, '11:20').toISOString())
  const { value: preview } = await services.reports.previews.create(engineer, { id: newId(), designId, revisionId })
  const { value } = await services.reports.issue(engineer, { id: newId(), previewId: preview.id })
  return value.id
}

/** What the engineer said to each point. */
function wordOn({ kind, sentence }: Pick<ReviewPoint, 'kind' | 'sentence'>): string {
  const said = Object.entries(wordsOnOne).find(([part]) => sentence.includes(part))?.[1]
  return said ?? wordsOnKind[kind] ?? 'Seen; the range stands without it.'
}
const wordsOnOne: Readonly<Record<string, string>> = {
  'Felt tore': 'Lost before it was abraded; the spare of the same morning stands for it.',
  'not needed': 'Cast as a spare and not used.',
  'Plate bent': 'Two strips agree within their scatter; n = 2 accepted.',
  'over the 12 %': 'Drawn where it was weighed; the target plays no part.',
  'heavier than the middle': 'Template overfilled; the loss agrees with its replicates.',
}
const wordsOnKind: Readonly<Record<string, string>> = {
  'not-tested': 'Not asked for in this contract’s first stage; said in the report.',
  'few-replicates': 'Two strips agree within their scatter; accepted.',
  deviation: 'Decided; the range stands with and without it.',
  correction: 'Digits transposed at the balance; the disc was read again.',
}
