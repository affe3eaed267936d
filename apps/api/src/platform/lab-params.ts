import { IdSchema } from '@curebook/contract/common'
import { z } from 'zod'

/** Path parameters of a route under `/api/labs/:lab`, with its own ones beside. */
export function labParams<Shape extends z.ZodRawShape = Record<never, never>>(own: Shape = {} as Shape) {
  return z.object({ lab: IdSchema, ...own })
}
