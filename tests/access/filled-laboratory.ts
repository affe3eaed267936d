import { newId } from '../../apps/api/src/platform/uuid.ts'
import type { TestApp } from '../support/app.ts'
import { timeNow } from '../support/factories/bench.ts'
import { makeInstrument } from '../support/factories/instrument.ts'
import { makeLaboratory, makePerson, type TestLaboratory } from '../support/factories/laboratory.ts'
import { issueReport } from '../support/factories/report.ts'
import { acknowledgeAll, makeTestedDesign, oneDisc, recommend, sign } from '../support/factories/tested-design.ts'

/** The ids that addresses name, by the parameter's name. */
export type Subjects = Readonly<
  Record<
    | 'lab'
    | 'client'
    | 'project'
    | 'design'
    | 'revision'
    | 'aggregate'
    | 'emulsion'
    | 'item'
    | 'specification'
    | 'test'
    | 'reading'
    | 'result'
    | 'deviation'
    | 'instrument'
    | 'edition'
    | 'report'
    | 'preview'
    | 'question'
    | 'screen'
    | 'session'
    | 'person'
    | 'invitation'
    | 'authorisation'
    | 'oven'
    | 'load'
    | 'attachment',
    string
  >
> & { readonly method: string; readonly code: string }
export type FilledLaboratory = { lab: TestLaboratory; subjects: Subjects }

/** A laboratory with one of everything that an address can name: an approved design of the first client, its report issued. */
export async function filledLaboratory(testApp: TestApp): Promise<FilledLaboratory> {
  const { services } = testApp
  const lab = await makeLaboratory(testApp)
  const { engineer, manager, technician } = lab.people
  const { design, specimens, machineId } = await makeTestedDesign(testApp, lab, {
    weighings: oneDisc,
    soakMinutes: () => 79,
  })
  const [deviation] = (await services.deviations.list(engineer.actor, { open: true, designId: null })).items
  await services.deviations.decide(engineer.actor, deviation!.id, {
    id: newId(),
    kind: 'accept',
    reason: 'A longer soak can only raise the loss',
    spareTestId: null,
  })
  await recommend(testApp, lab, design.id)
  await acknowledgeAll(testApp, lab, design.id)
  await sign(testApp, lab, design.id, 'check')
  await sign(testApp, lab, design.id, 'approve')
  const ofRevision = { designId: design.id, revisionId: design.revisionId }
  const report = await issueReport(testApp, lab, ofRevision)
  const preview = await services.reports.previews.create(engineer.actor, {
    id: newId(),
    ...ofRevision,
    reason: 'Copy added',
  })
  const question = await services.questions.ask(lab.people.client.actor, {
    id: newId(),
    projectId: design.projectId,
    reportId: report.id,
    text: 'Which limit sets the minimum?',
  })
  await services.questions.answer(engineer.actor, question.value.id, { id: newId(), text: 'The 6-day soak.' })
  await services.projectSpecifications.set(manager.actor, design.projectId, {
    id: newId(),
    specificationId: design.specification.id,
    after: null,
  })
  await services.expectedDays.set(manager.actor, design.projectId, { id: newId(), day: '2026-04-01', after: null })
  const invitationId = newId()
  await services.invitations.invite(manager.actor, {
    id: invitationId,
    email: `invited.${invitationId.slice(-8)}@ternhollow.example`,
    name: 'Invited Person',
    roles: ['technician'],
    clientId: null,
  })
  const attachment = await services.attachments.create(technician.actor, {
    id: newId(),
    name: 'cups.csv',
    mediaType: 'text/csv',
    base64: Buffer.from('cup;s\n1;74\n').toString('base64'),
  })
  const oven = await makeInstrument(testApp, lab, { code: 'OV-1', kind: 'oven', name: 'Oven, 60 °C' })
  const load = await services.loads.open(technician.actor, {
    id: newId(),
    instrumentId: oven.id,
    time: timeNow(testApp),
  })
  const { value: authorisation } = await services.authorisations.grant(manager.actor, {
    id: newId(),
    membershipId: lab.people.technician2.actor.membershipId,
    activity: 'release',
    fromDay: '2026-03-01',
    untilDay: null,
    evidence: 'Observed twice',
  })
  const screen = await services.wallScreens.make(manager.actor, { id: newId(), name: 'Bench room' })
  const lost = await makePerson(testApp, lab, { name: 'Tablet Left', roles: ['technician'] })
  const { readings, results, edition } = await services.bench.view.one(technician.actor, specimens[0]!.testId)
  return {
    lab,
    subjects: {
      lab: lab.labId,
      client: lab.clientId,
      project: design.projectId,
      design: design.id,
      revision: design.revisionId,
      aggregate: design.materials.aggregate.id,
      emulsion: design.materials.emulsion.id,
      item: design.materials.emulsion.id,
      specification: design.specification.id,
      test: specimens[0]!.testId,
      reading: readings[0]!.id,
      result: results[0]!.id,
      deviation: deviation!.id,
      instrument: machineId,
      edition: edition.id,
      report: report.id,
      preview: preview.value.id,
      question: question.value.id,
      screen: screen.value.screen.id,
      session: lost.actor.sessionId!,
      person: lab.people.technician2.actor.membershipId,
      invitation: invitationId,
      authorisation: authorisation.id,
      oven: oven.id,
      load: load.value.id,
      attachment: attachment.value.id,
      method: 'wet-track-abrasion-1h',
      code: specimens[0]!.code,
    },
  }
}
