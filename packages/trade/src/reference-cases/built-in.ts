import type { ReferenceCaseFile } from '../procedure/reference-cases.ts'
import batch from './batch.json' with { type: 'json' }
import binderExtractionEn from './binder-extraction-en.json' with { type: 'json' }
import binderExtraction from './binder-extraction.json' with { type: 'json' }
import binderIgnition from './binder-ignition.json' with { type: 'json' }
import cohesionAbrasion from './cohesion-abrasion.json' with { type: 'json' }
import cohesionEn from './cohesion-en.json' with { type: 'json' }
import cohesion from './cohesion.json' with { type: 'json' }
import coneConsistencyEn from './cone-consistency-en.json' with { type: 'json' }
import coneConsistency from './cone-consistency.json' with { type: 'json' }
import loadedWheelSandAdhesion from './loaded-wheel-sand-adhesion.json' with { type: 'json' }
import trialMixAtTemperature from './trial-mix-at-temperature.json' with { type: 'json' }
import trialMix from './trial-mix.json' with { type: 'json' }
import wetTrackAbrasion1h from './wet-track-abrasion-1h.json' with { type: 'json' }
import wetTrackAbrasion3d from './wet-track-abrasion-3d.json' with { type: 'json' }
import wetTrackAbrasion6d from './wet-track-abrasion-6d.json' with { type: 'json' }
import wetTrackAbrasionEn from './wet-track-abrasion-en.json' with { type: 'json' }
import classificationCompatibility from './classification-compatibility.json' with { type: 'json' }
import compatibilityCup from './compatibility-cup.json' with { type: 'json' }
import loadedWheelDisplacement from './loaded-wheel-displacement.json' with { type: 'json' }
import shakingAbrasion from './shaking-abrasion.json' with { type: 'json' }
import wetStripping from './wet-stripping.json' with { type: 'json' }

/** The reference cases that the product ships with, one file a method. */
export const builtInReferenceCases = [
  batch,
  wetTrackAbrasion1h,
  wetTrackAbrasion6d,
  loadedWheelSandAdhesion,
  wetTrackAbrasion3d,
  wetTrackAbrasionEn,
  { ...cohesionAbrasion, method: 'cohesion-abrasion-30-min' },
  cohesionAbrasion,
  { ...cohesionAbrasion, method: 'cohesion-abrasion-3h' },
  binderIgnition,
  binderExtraction,
  binderExtractionEn,
  trialMix,
  trialMixAtTemperature,
  cohesion,
  cohesionEn,
  coneConsistency,
  coneConsistencyEn,
  wetStripping,
  compatibilityCup,
  classificationCompatibility,
  loadedWheelDisplacement,
  shakingAbrasion,
] as readonly ReferenceCaseFile[]
