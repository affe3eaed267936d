import type { EditionParameter, EditionParameters } from '../procedure/declaration.ts'
import { replicatesParameter } from '../procedure/replicates.ts'

/** The source text of everything that is done so in laboratories, without a document at hand. */
export const practiceSource = 'common practice, no source'

/** A number practised in the trade without a published source. */
export function practised(value: string, unit: string, label: string): EditionParameter {
  return { value, unit, label, source: practiceSource, certainty: 'common practice' }
}

/** A number remembered from a document that must be checked against one's own copy. */
export function remembered(designation: string, value: string, unit: string, label: string): EditionParameter {
  return { value, unit, label, source: `${designation}, from memory, unverified`, certainty: 'from memory' }
}

/** A number read in the document itself. */
export function published(
  source: string,
  clause: string | undefined,
  value: string,
  unit: string,
  label: string,
): EditionParameter {
  return { value, unit, label, source, ...(clause === undefined ? {} : { clause }), certainty: 'published' }
}

/** How many tests are made where one is judged, as practised: no document that was read says it. */
export function replicatesPractised(value: string, of = 'at one content'): EditionParameters {
  return { [replicatesParameter]: practised(value, 'count', `Tests ${of} that count, at least`) }
}
