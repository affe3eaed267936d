import type { ReferenceCaseFile } from '../procedure/reference-cases.ts'
import batch from './batch.json' with { type: 'json' }
import loadedWheelSandAdhesion from './loaded-wheel-sand-adhesion.json' with { type: 'json' }
import wetTrackAbrasion1h from './wet-track-abrasion-1h.json' with { type: 'json' }
import wetTrackAbrasion6d from './wet-track-abrasion-6d.json' with { type: 'json' }

/** The reference cases that the product ships with, one file a method. */
export const builtInReferenceCases = [
  batch,
  wetTrackAbrasion1h,
  wetTrackAbrasion6d,
  loadedWheelSandAdhesion,
] as readonly ReferenceCaseFile[]
