import { z } from 'zod'
import { SignedGradationSchema } from './gradations.ts'
import { MadeBySchema } from './made-by.ts'
import { CurveSchema, FlagSchema, GradationCheckSchema, PanelRowSchema, RangeEndSchema } from './range.ts'
import { CalculationSchema } from './results.ts'

/**
 * Everything a report shows, except its number, issue time, signature block, digest, QR and page numbers. Stored as
 * canonical JSON text (RFC 8785) and signed as exactly these bytes; every number and time is a string.
 */
const MaterialLine = z.object({
  kind: z.string(),
  code: z.string(),
  name: z.string(),
  sourceName: z.string(),
  supplier: z.string(),
  lot: z.string(),
  receivedOn: z.string(),
  note: z.string(),
})
const PersonLine = z.object({ name: z.string(), part: z.string() })
const ReadingLine = z.object({
  step: z.string(),
  label: z.string(),
  typed: z.string(),
  unit: z.string(),
  by: z.string(),
  eventAt: z.string(),
  instrument: z.string(),
  corrected: z.string(),
})
const EventLine = z.object({
  step: z.string(),
  label: z.string(),
  by: z.string(),
  eventAt: z.string(),
  receivedAt: z.string(),
  note: z.string(),
})
const ResultLine = z.object({
  key: z.string(),
  label: z.string(),
  value: z.string(),
  unit: z.string(),
  shown: z.string(),
  refusal: z.string(),
  calculation: CalculationSchema.nullable(),
})

/** Trial-mix cups as they stand, % of dry aggregate; what was not read is empty. */
export const SignedTrialMixesSchema = z.object({
  cups: z.array(
    z.object({
      number: z.string(),
      emulsion: z.string(),
      water: z.string(),
      additive: z.string(),
      filler: z.string(),
      temperature: z.string(),
      mixTime: z.string(),
      coated: z.string(),
      clearWater: z.string(),
      /** In words; left out where nobody noted it, and in content signed earlier. */
      consistency: z.string().optional(),
      broke: z.string().optional(),
      remark: z.string(),
      by: z.string(),
      /** Its water, additive and filler were given to the series. */
      chosen: z.boolean(),
    }),
  ),
})
export type SignedTrialMixes = z.infer<typeof SignedTrialMixesSchema>

export const SignedSpecimenSchema = z.object({
  code: z.string(),
  label: z.string(),
  form: z.string(),
  method: z.string(),
  emulsionTarget: z.string(),
  emulsionAsWeighed: z.string(),
  residualAsWeighed: z.string(),
  purpose: z.string(),
  state: z.string(),
  remark: z.string(),
  batch: z.array(ReadingLine),
  readings: z.array(ReadingLine),
  events: z.array(EventLine),
  results: z.array(ResultLine),
})

export const SignedContentSchema = z.object({
  schema: z.literal('1'),
  kind: z.literal('revision'),
  laboratory: z.object({
    name: z.string(),
    address: z.string(),
    contact: z.string(),
    zone: z.string(),
    decimalSign: z.string(),
    accreditation: z.string(),
  }),
  client: z.object({ name: z.string(), contact: z.string(), address: z.string() }),
  project: z.object({ name: z.string(), kind: z.string(), reportTo: z.string(), copiesTo: z.string() }),
  design: z.object({
    id: z.string(),
    name: z.string(),
    revisionId: z.string(),
    revision: z.string(),
    fractionUsed: z.string(),
    scalpedPercent: z.string(),
  }),
  specification: z.object({
    name: z.string(),
    /** Counted within its line; left out in content signed earlier. */
    version: z.string().optional(),
    /** Where it is not the one that the project stood on: both, and why. Left out where it was, and in content signed earlier. */
    differs: z.string().optional(),
    source: z.string(),
    decisionRule: z.string(),
    comparison: z.string(),
    aggregateType: z.string(),
    traffic: z.string(),
    changes: z.array(z.string()),
  }),
  materials: z.array(MaterialLine),
  enteredResults: z.array(
    z.object({
      key: z.string(),
      label: z.string(),
      typed: z.string(),
      unit: z.string(),
      source: z.string(),
      /** Who made it, where that was said; left out in content signed before it was asked. */
      madeBy: MadeBySchema.optional(),
      observedOn: z.string(),
      by: z.string(),
    }),
  ),
  /** Left out where none is entered, and in content signed earlier. So are trial mixes. */
  gradation: SignedGradationSchema.optional(),
  /** Sieve by sieve against the specification's band; left out where it holds none, and in content signed earlier. */
  gradationCheck: GradationCheckSchema.optional(),
  trialMixes: SignedTrialMixesSchema.optional(),
  methods: z.array(
    z.object({
      key: z.string(),
      name: z.string(),
      designation: z.string(),
      edition: z.string(),
      parameters: z.array(
        z.object({ label: z.string(), value: z.string(), unit: z.string(), source: z.string(), certainty: z.string() }),
      ),
    }),
  ),
  instruments: z.array(
    z.object({
      code: z.string(),
      name: z.string(),
      kind: z.string(),
      factor: z.string(),
      calibration: z.string(),
      usedFor: z.string(),
    }),
  ),
  /** Ovens, baths and machines that each specimen was in or on, by its code. Left out in content signed earlier, as what follows. */
  equipment: z.array(z.object({ code: z.string(), instruments: z.array(z.string()) })).optional(),
  /** Area of a machine as it was measured, beside the factor that stands in force. */
  measuredAreas: z.array(z.object({ code: z.string(), areaCm2: z.string() })).optional(),
  /** How the binder content of a batch follows from what was weighed, for one specimen. */
  batchExample: z.object({ code: z.string(), calculation: CalculationSchema }).optional(),
  mixes: z.array(
    z.object({
      emulsionPercent: z.string(),
      waterPercent: z.string(),
      fillerPercent: z.string(),
      additivePercent: z.string(),
    }),
  ),
  specimens: z.array(SignedSpecimenSchema),
  curves: z.array(CurveSchema),
  range: z.object({
    minimum: RangeEndSchema,
    maximum: RangeEndSchema,
    midpoint: z.string(),
    /** The same as emulsion, % of dry aggregate; left out in content signed earlier, as is the basis of all residual binder. */
    midpointEmulsion: z.string().optional(),
    basis: z.string().optional(),
    /** Null without a midpoint, and in content signed earlier. */
    midpointCalculation: CalculationSchema.nullable().default(null),
    sentence: z.string(),
    /** How means and limits were compared for the ends; empty in content signed earlier. */
    comparison: z.string().default(''),
    flags: z.array(FlagSchema),
  }),
  panel: z.array(PanelRowSchema),
  overall: z.string(),
  recommendation: z
    .object({
      emulsionPercent: z.string(),
      residualPercent: z.string(),
      toleranceResidualPercent: z.string(),
      water: z.string(),
      filler: z.string(),
      additive: z.string(),
      reason: z.string(),
      by: z.string(),
      at: z.string(),
    })
    .nullable(),
  deviations: z.array(
    z.object({ code: z.string(), text: z.string(), decision: z.string(), by: z.string(), at: z.string() }),
  ),
  corrections: z.array(
    z.object({
      code: z.string(),
      label: z.string(),
      from: z.string(),
      to: z.string(),
      reason: z.string(),
      by: z.string(),
      at: z.string(),
    }),
  ),
  acknowledgements: z.array(
    z.object({
      point: z.string(),
      /** What leaving its specimen out would do to the range; empty without one, and in content signed earlier. */
      effect: z.string().default(''),
      word: z.string(),
      by: z.string(),
      at: z.string(),
    }),
  ),
  people: z.array(PersonLine),
  dates: z.object({ received: z.string(), firstWork: z.string(), lastWork: z.string() }),
  statements: z.array(z.string()),
})
export type SignedContent = z.infer<typeof SignedContentSchema>
export type SignedSpecimen = z.infer<typeof SignedSpecimenSchema>
