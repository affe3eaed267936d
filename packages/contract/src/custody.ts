import { z } from 'zod'
import {
  DaySchema,
  DigitsSchema,
  EventTimeSchema,
  IdSchema,
  InstantSchema,
  OptionalTextSchema,
  PersonNameSchema,
  TypedSchema,
} from './common.ts'
import { ConditionSchema, MaterialKindSchema, NewReceiptSchema, SafetySheetSchema } from './materials.ts'

export const PlaceKindSchema = z.enum(['room', 'oven', 'bath', 'store', 'outside'])

/** Where items stand. Only a place with access control can have custody of one. */
export const PlaceSchema = z.object({
  id: IdSchema,
  name: z.string(),
  kind: PlaceKindSchema,
  accessControlled: z.boolean(),
})
export type Place = z.infer<typeof PlaceSchema>

export const CreatePlaceSchema = z.strictObject({
  id: IdSchema,
  name: z.string().trim().min(1, 'Name the place as people call it').max(100),
  kind: PlaceKindSchema,
  accessControlled: z.boolean(),
})
export type CreatePlace = z.infer<typeof CreatePlaceSchema>

const acting = {
  /** Of the custody event that the act makes. */
  id: IdSchema,
  /** The event at which the item stood when this was decided, null before its first: what happened meanwhile is told, not overrun. */
  after: IdSchema.nullable(),
  time: EventTimeSchema,
  condition: ConditionSchema.optional(),
  /** Of the container; left out where there is none to look at. */
  sealIntact: z.boolean().optional(),
  /** In °C, as typed. */
  temperature: TypedSchema.optional(),
  note: OptionalTextSchema,
}
const words = (missing: string) => z.string().trim().min(1, missing).max(500)
const PartySchema = words('Say who it is outside the laboratory').max(200)
const SignedForSchema = words('Say who signed for it there, or the number of the carrier’s paper')

const PieceSchema = z.strictObject({
  id: IdSchema,
  kind: z.enum(['split', 'bag']),
  /** In grams unless another unit of mass is typed. */
  mass: TypedSchema,
})

/** One act of custody on an item, by whoever sends it. */
export const RecordActSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    ...acting,
    kind: z.literal('received'),
    from: PartySchema,
    placeId: IdSchema.optional(),
    mass: TypedSchema.optional(),
  }),
  z.strictObject({ ...acting, kind: z.literal('taken') }),
  z.strictObject({ ...acting, kind: z.literal('placed'), placeId: IdSchema }),
  z.strictObject({
    ...acting,
    kind: z.literal('split'),
    pieces: z.array(PieceSchema).min(1, 'Give the mass of at least one piece').max(200),
    /** Left out: nothing was lost. */
    loss: TypedSchema.optional(),
    /** What stays under its code, where it was weighed. */
    left: TypedSchema.optional(),
    /** The item's own mass, where none is on record. */
    weighed: TypedSchema.optional(),
    fraction: z.string().trim().max(200).optional(),
    /** Share taken off before, in %, as typed. */
    scalped: TypedSchema.optional(),
  }),
  z.strictObject({ ...acting, kind: z.literal('offered'), to: PartySchema }),
  z.strictObject({ ...acting, kind: z.literal('accepted'), signedFor: SignedForSchema }),
  z.strictObject({ ...acting, kind: z.literal('refused'), note: words('Say why it stays here') }),
  z.strictObject({ ...acting, kind: z.literal('sent'), to: PartySchema, signedFor: SignedForSchema }),
  z.strictObject({ ...acting, kind: z.literal('returned'), to: PartySchema, signedFor: SignedForSchema }),
  z.strictObject({
    ...acting,
    kind: z.literal('disposed'),
    note: words('Say who asked for the disposal, and how it was done'),
  }),
  z.strictObject({
    ...acting,
    kind: z.literal('gap'),
    note: words('Say from when to when nobody can say who had it, and how it was found'),
  }),
])
export type RecordAct = z.infer<typeof RecordActSchema>
export const CustodyActKindSchema = z.enum([
  'received',
  'taken',
  'placed',
  'split',
  'offered',
  'accepted',
  'refused',
  'sent',
  'returned',
  'disposed',
  'gap',
])

export const CustodianSchema = z.discriminatedUnion('kind', [
  PersonNameSchema.extend({ kind: z.literal('person') }),
  z.object({ kind: z.literal('place'), placeId: IdSchema, name: z.string() }),
  z.object({ kind: z.literal('party'), name: z.string() }),
])
export type Custodian = z.infer<typeof CustodianSchema>

/** Who has an item now, what is left of it, and what the person asking may do with it. */
export const CustodyNowSchema = z.object({
  status: z.enum(['not-begun', 'with', 'offered', 'outside', 'disposed']),
  custodian: CustodianSchema.nullable(),
  /** The party outside to whom it is offered. */
  offeredTo: z.string().nullable(),
  massG: DigitsSchema.nullable(),
  /** What batches drew of it beyond what there was by the record: a mass is wrong, or it was another bag. */
  overG: DigitsSchema.nullable(),
  lastEventId: IdSchema.nullable(),
  allowed: z.array(CustodyActKindSchema),
  /** Why no test may begin on it; null where one may. */
  testBarred: z.string().nullable(),
})
export type CustodyNow = z.infer<typeof CustodyNowSchema>

/** One link of the chain, as told. */
export const CustodyEventSchema = z.object({
  id: IdSchema,
  kind: CustodyActKindSchema,
  from: CustodianSchema.nullable(),
  to: CustodianSchema.nullable(),
  /** When it happened, with the device's clock put right. */
  eventAt: InstantSchema,
  eventFrom: z.enum(['now', 'ago', 'at', 'paper', 'instrument', 'plan']),
  timeNote: z.string().nullable(),
  condition: z.string().nullable(),
  sealIntact: z.boolean().nullable(),
  /** As typed, in °C unless another unit was typed. */
  temperature: z.string().nullable(),
  temperatureC: DigitsSchema.nullable(),
  /** What stands under its code after the act. */
  massG: DigitsSchema.nullable(),
  massTyped: z.string().nullable(),
  weighedTyped: z.string().nullable(),
  lossG: DigitsSchema.nullable(),
  signedFor: z.string().nullable(),
  note: z.string().nullable(),
  /** Another link stands in its place; it stays, struck through. */
  superseded: z.boolean(),
  /** Why it stands in the place of the link before it; null for what was told first. */
  correction: z.string().nullable(),
  by: PersonNameSchema,
  at: InstantSchema,
})
export type CustodyEvent = z.infer<typeof CustodyEventSchema>

/** How old an emulsion is today, and from which day its residue is tested again. */
export const EmulsionAgeSchema = z.object({
  madeOn: DaySchema,
  days: z.number().int(),
  retestFromDay: z.number().int(),
  source: z.string(),
})

/** What was found when a sample was received, and what was told about it. */
export const ReceiptSchema = z.object({
  containerKind: z.string().nullable(),
  containerCount: z.number().int().nullable(),
  containers: z.array(z.object({ typed: z.string(), amount: DigitsSchema, unit: z.string() })),
  sampledBy: z.string().nullable(),
  sampledWhere: z.string().nullable(),
  sampledHow: z.string().nullable(),
  safetySheet: SafetySheetSchema.nullable(),
  safetySheetName: z.string().nullable(),
  emulsionAge: EmulsionAgeSchema.nullable(),
})
export type Receipt = z.infer<typeof ReceiptSchema>

/** A receipt as it stood before it was corrected, by whom, when and why. */
export const EarlierReceiptSchema = z.object({
  receipt: ReceiptSchema,
  correctedBy: PersonNameSchema,
  correctedAt: InstantSchema,
  reason: z.string(),
})
export type EarlierReceipt = z.infer<typeof EarlierReceiptSchema>

/** What was found on arrival, put right: the whole of it, as it should have been told. */
export const CorrectReceiptSchema = z.strictObject({
  /** Of the custody event in the place of the one that stands. */
  id: IdSchema,
  /** The event that stands for the receipt: what was corrected meanwhile is told, not overrun. */
  supersedesId: IdSchema,
  reason: z.string().trim().min(1, 'Say what was wrong').max(500),
  receipt: NewReceiptSchema,
})
export type CorrectReceipt = z.infer<typeof CorrectReceiptSchema>

const ItemNameSchema = z.object({
  id: IdSchema,
  code: z.string(),
  kind: z.enum(['sample', 'split', 'bag', 'batch', 'specimen', 'field-sample']),
  name: z.string(),
})

/** What an item was made of: one line for each parent of `childId`, up to what was received. */
export const AncestorSchema = ItemNameSchema.extend({
  childId: IdSchema,
  materialKind: MaterialKindSchema.nullable(),
  /** In grams: stated at a split, or weighed into a batch; null where it was not weighed yet. */
  massG: DigitsSchema.nullable(),
})
export type Ancestor = z.infer<typeof AncestorSchema>

/** A split or bag made of an item, or of one of its pieces. */
export const ItemPieceSchema = ItemNameSchema.extend({
  parentId: IdSchema,
  fraction: z.string().nullable(),
  massG: DigitsSchema.nullable(),
  leftG: DigitsSchema.nullable(),
  status: CustodyNowSchema.shape.status,
  custodian: z.string().nullable(),
})
export type ItemPiece = z.infer<typeof ItemPieceSchema>

/** What a batch weighed out of an item or of a piece of it, as it stands. */
export const DrawSchema = z.object({
  /** Null where the batch names the sample only, not the bag. */
  from: z.object({ id: IdSchema, code: z.string() }).nullable(),
  testId: IdSchema,
  batchCode: z.string(),
  component: z.string(),
  massG: DigitsSchema,
  typed: z.string(),
  at: InstantSchema,
  by: z.string(),
})
export type Draw = z.infer<typeof DrawSchema>

/** Specimens that descend from an item, by mix and form. */
export const DescendantSpecimensSchema = z.object({
  designId: IdSchema,
  designName: z.string(),
  /** Null where it is made of the materials, at no content. */
  mixId: IdSchema.nullable(),
  emulsionPercent: z.string().nullable(),
  form: z.string(),
  count: z.number().int(),
  codes: z.array(z.string()),
})
export type DescendantSpecimens = z.infer<typeof DescendantSpecimensSchema>

/** A test done on an item. */
export const ItemTestSchema = z.object({
  id: IdSchema,
  methodName: z.string(),
  label: z.string(),
  state: z.string(),
})
export type ItemTest = z.infer<typeof ItemTestSchema>

/** Bags of one mass and fraction that were made of a sample. */
export const BagStockSchema = z.object({
  fraction: z.string().nullable(),
  massG: DigitsSchema,
  made: z.int(),
  /** In the laboratory's care, with all that was put in, and nothing made of them. */
  unused: z.int(),
})

/** A bag that batches were weighed out of by name. */
export const OpenedBagSchema = z.object({
  id: IdSchema,
  code: z.string(),
  fraction: z.string().nullable(),
  /** What was put in, what is left by the record (0: used up), and what was drawn beyond that. */
  massG: DigitsSchema.nullable(),
  leftG: DigitsSchema.nullable(),
  overG: DigitsSchema.nullable(),
  draws: z.array(z.object({ testId: IdSchema, batchCode: z.string(), massG: DigitsSchema })),
})
export type OpenedBag = z.infer<typeof OpenedBagSchema>

/** What came of a sample, what batches drew of it as weighed, and what is left. */
export const StockSchema = z.object({
  id: IdSchema,
  code: z.string(),
  name: z.string(),
  materialKind: MaterialKindSchema,
  lot: z.string(),
  receivedOn: DaySchema,
  /** Null where it was never weighed; `containers` says what was told then. */
  receivedG: DigitsSchema.nullable(),
  containers: z.array(z.string()),
  drawnG: DigitsSchema,
  batches: z.int(),
  lostG: DigitsSchema,
  /** In pieces that were sent, given back or disposed of. */
  goneG: DigitsSchema,
  leftG: DigitsSchema.nullable(),
  overdrawn: z.boolean(),
  disposed: z.boolean(),
  bags: z.array(BagStockSchema),
  opened: z.array(OpenedBagSchema),
})
export type Stock = z.infer<typeof StockSchema>

/** Any item with its whole life. */
export const ItemSchema = ItemNameSchema.extend({
  form: z.string().nullable(),
  materialKind: MaterialKindSchema.nullable(),
  sourceName: z.string().nullable(),
  supplier: z.string().nullable(),
  lot: z.string().nullable(),
  receivedOn: DaySchema.nullable(),
  fraction: z.string().nullable(),
  scalped: z.string().nullable(),
  note: z.string().nullable(),
  by: PersonNameSchema,
  at: InstantSchema,
  receipt: ReceiptSchema.nullable(),
  /** Latest first. */
  earlierReceipts: z.array(EarlierReceiptSchema),
  custody: CustodyNowSchema,
  life: z.array(CustodyEventSchema),
  madeOf: z.array(AncestorSchema),
  pieces: z.array(ItemPieceSchema),
  draws: z.array(DrawSchema),
  batches: z.number().int(),
  specimens: z.array(DescendantSpecimensSchema),
  tests: z.array(ItemTestSchema),
})
export type Item = z.infer<typeof ItemSchema>
