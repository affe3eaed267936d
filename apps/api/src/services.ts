import type { Database } from '@curebook/database/open-database'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { createAttachmentsService } from '#features/attachments/attachments.service'
import { createBenchServices } from '#features/bench/bench.services'
import { createObservationsService } from '#features/bench/observations.service'
import { createClientsService } from '#features/clients/clients.service'
import { createCustodyService } from '#features/custody/custody.service'
import { createPlacesService } from '#features/custody/places.service'
import { createReceiptCorrectionService } from '#features/custody/receipt-correction.service'
import { createStockService } from '#features/custody/stock.service'
import { createConditionsService } from '#features/bench/conditions.service'
import { createDesignsService } from '#features/designs/designs.service'
import { createDeviationsService } from '#features/bench/deviations.service'
import { createLoadsService } from '#features/bench/loads.service'
import { createFirstRunService, type LaboratoryCreated } from '#features/first-run/first-run.service'
import { createHandOversService } from '#features/hand-overs/hand-overs.service'
import { createInstrumentChecksService } from '#features/instruments/instrument-checks.service'
import { createInstrumentImportsService } from '#features/instruments/instrument-imports.service'
import { createInstrumentsService } from '#features/instruments/instruments.service'
import { createInstrumentLinesService } from '#features/instruments/instrument-lines.service'
import { createPartFittingsService } from '#features/instruments/part-fittings.service'
import { createLabelsService } from '#features/labels/labels.service'
import { createLaboratoryService } from '#features/laboratory/laboratory.service'
import { createLedgerService } from '#features/ledger/ledger.service'
import { startMailRounds } from '#features/mail/mail-rounds'
import { createMailTransport, type MailConfig } from '#features/mail/mail-transport'
import { createMailService } from '#features/mail/mail.service'
import { createMaterialsService } from '#features/materials/materials.service'
import { createMethodsService } from '#features/methods/methods.service'
import { createAuthorisationsService } from '#features/people/authorisations.service'
import { createInvitationsService } from '#features/people/invitations.service'
import { createPeopleService } from '#features/people/people.service'
import { createNoticesService } from '#features/notices/notices.service'
import { createProjectsService } from '#features/projects/projects.service'
import { createResultsService } from '#features/results/results.service'
import { createProgressService } from '#features/progress/progress.service'
import { createExpectedDaysService } from '#features/expected-days/expected-days.service'
import { createQuestionsService } from '#features/questions/questions.service'
import { createEstimatesService } from '#features/estimates/estimates.service'
import { createPanelTestsService } from '#features/range/panel-tests.service'
import { createRangeService } from '#features/range/range.service'
import { createReplicatesService } from '#features/range/replicates.service'
import { createRecommendationsService } from '#features/recommendations/recommendations.service'
import { createReportRenderer } from '#features/reports/render/report-renderer'
import { createReportsService } from '#features/reports/reports.service'
import { createReviewService } from '#features/review/review.service'
import { createScheduleService } from '#features/schedule/schedule.service'
import { createSearchService } from '#features/search/search.service'
import { createDeviceService } from '#features/session/device.service'
import { createSessionService } from '#features/session/session.service'
import { createSignedInService } from '#features/session/signed-in.service'
import { createProjectSpecificationsService } from '#features/project-specifications/project-specifications.service'
import { createSpecificationsService } from '#features/specifications/specifications.service'
import { createTrialsService } from '#features/trials/trials.service'
import { createValidationService } from '#features/validation/validation.service'
import { createWallScreensService } from '#features/wall/wall-screens.service'
import { createWallService } from '#features/wall/wall.service'
import { createAccountLibrary } from '#platform/account-library'
import { createAttemptLimits } from '#platform/attempt-limits'
import { createAuth } from '#platform/auth'
import { buildVersion } from '#platform/build'
import type { Clock } from '#platform/clock'
import { createIdentify } from '#platform/identify'
import { createLaboratory } from '#platform/laboratory'
import { createLive, type LiveLog } from '#platform/live'
import { createSealer } from '#platform/sealer'

export type Services = ReturnType<typeof createServices>

export type ServicesOptions = {
  database: Database
  clock: Clock
  methods: readonly MethodDeclaration[]
  config: {
    publicUrl: string | undefined
    mail?: MailConfig
    secrets: { authSecret: string; setupCode: string | undefined }
  }
  log?: LiveLog
}

/** Every service with what it stands on, made once: for the server, for the script that makes the demo, for tests. */
export function createServices({ database, clock, methods, config, log = silent }: ServicesOptions) {
  const { publicUrl, secrets } = config
  const laboratory = createLaboratory({ database, clock })
  const identify = createIdentify({ database, clock })
  const sealer = createSealer({ sealerUrl: database.sealerUrl, clock, log })
  const { sealNow } = sealer
  const live = createLive({ sealerUrl: database.sealerUrl, log })
  const limits = createAttemptLimits({ pool: database.identityPool })
  const library = createAccountLibrary({ prisma: database.identityPrisma, secret: secrets.authSecret, publicUrl })
  const auth = createAuth({ database, library, limits })
  const devices = createDeviceService({
    database,
    laboratory,
    auth,
    limits,
    publicUrl,
    authSecret: secrets.authSecret,
  })

  // What a feature brings into every new laboratory, in the transaction that makes it.
  const testMethods = createMethodsService({ laboratory, methods })
  const onLaboratoryCreated: LaboratoryCreated[] = [testMethods.copyBuiltInIn]

  const attachments = createAttachmentsService({ laboratory })
  const places = createPlacesService({ laboratory })
  const materials = createMaterialsService({ laboratory, places })
  const custody = createCustodyService({ laboratory, methods, materials, places })
  const specifications = createSpecificationsService({ laboratory })
  const projectSpecifications = createProjectSpecificationsService({ laboratory, specifications })
  const designs = createDesignsService({
    laboratory,
    methods: testMethods,
    materials,
    specifications,
    projectSpecifications,
    attachments,
  })
  const build = buildVersion()
  const bench = createBenchServices({ laboratory, methods, build })
  designs.onDesignInputChanged(bench.recomputeRevision)
  const range = createRangeService({ laboratory, designs, specifications, methods })
  const panelTests = createPanelTestsService({ laboratory, designs, specifications, methods })
  const replicates = createReplicatesService({ laboratory, range, methods })
  const transport = config.mail && createMailTransport(config.mail)
  const mail = createMailService({ laboratory, database, methods, publicUrl, transport })
  let endMailRounds: (() => Promise<void>) | undefined
  const notices = createNoticesService({ laboratory, mail })
  const schedule = createScheduleService({ laboratory, methods, notices })
  const renderer = createReportRenderer()
  const review = createReviewService({ laboratory, designs, range, auth, methods, sealNow })

  return {
    methods,
    laboratory,
    identify,
    sealer,
    live,
    auth,
    session: createSessionService({ database, clock, auth, identify, devices }),
    devices,
    signedIn: createSignedInService({ database, laboratory }),
    laboratories: createLaboratoryService({ laboratory }),
    people: createPeopleService({ laboratory }),
    authorisations: createAuthorisationsService({ laboratory, methods }),
    invitations: createInvitationsService({ database, laboratory, clock, auth, identify, limits }),
    firstRun: createFirstRunService({
      database,
      laboratory,
      auth,
      limits,
      setupCode: secrets.setupCode,
      onLaboratoryCreated,
    }),
    testMethods,
    clients: createClientsService({ laboratory }),
    projects: createProjectsService({ laboratory }),
    attachments,
    materials,
    places,
    custody,
    receipts: createReceiptCorrectionService({ laboratory, materials, places, custody }),
    stock: createStockService({ laboratory }),
    labels: createLabelsService({ laboratory }),
    specifications,
    projectSpecifications,
    instruments: createInstrumentsService({ laboratory, methods: testMethods }),
    instrumentImports: createInstrumentImportsService({ laboratory }),
    parts: createPartFittingsService({ laboratory }),
    checks: createInstrumentChecksService({ laboratory, methods: testMethods }),
    lines: createInstrumentLinesService({ laboratory }),
    designs,
    trials: createTrialsService({ laboratory, designs, specifications }),
    bench,
    observations: createObservationsService({ laboratory, methods, attachments }),
    deviations: createDeviationsService({ laboratory, methods, build }),
    loads: createLoadsService({ laboratory, methods, build }),
    conditions: createConditionsService({ laboratory, database, methods }),
    results: createResultsService({ laboratory, methods }),
    estimates: createEstimatesService({ laboratory, designs }),
    range,
    panelTests,
    replicates,
    recommendations: createRecommendationsService({ laboratory, range }),
    review,
    reports: createReportsService({ laboratory, database, renderer, publicUrl, review, sealNow, mail }),
    progress: createProgressService({ laboratory }),
    questions: createQuestionsService({ laboratory, mail }),
    expectedDays: createExpectedDaysService({ laboratory }),
    validation: createValidationService({ clock, methods, build }),
    wall: createWallService({ database, laboratory, limits, methods, publicUrl }),
    wallScreens: createWallScreensService({ laboratory }),
    search: createSearchService({ laboratory }),
    mail,
    startMail: () => void (endMailRounds ??= startMailRounds({ round: mail.round, log })),
    notices,
    schedule,
    handOvers: createHandOversService({ laboratory, limits, schedule }),
    ledger: createLedgerService({ database, laboratory, clock, sealNow }),

    /** Ends what keeps a connection of its own. The database is closed by whoever opened it. */
    async close(): Promise<void> {
      await endMailRounds?.()
      await renderer.close()
      await live.close()
      await sealer.close()
    },
  }
}

const silent: LiveLog = { error: () => undefined }
