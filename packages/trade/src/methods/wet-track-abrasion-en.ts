import type { BuiltInEdition, EditionParameters } from '../procedure/declaration.ts'
import { practised, practiceSource, remembered } from './edition-parameter.ts'
import { wetTrackParameters } from './wet-track-abrasion.ts'
import { wetTrackMethod } from './wet-track-method.ts'

/**
 * The text of EN 12274-5 was not at hand: its title, its editions and its scope were. Every number is therefore practice,
 * the same as on the bench of TB-100. The table of machine classes is not the standard’s and is left out: a loss is
 * multiplied by the factor of the machine that was used, 1 ÷ its abraded area.
 */
const parameters: EditionParameters = {
  ...Object.fromEntries(
    Object.entries(wetTrackParameters)
      .filter(([key]) => !key.startsWith('class-'))
      .map(([key, { value, unit, label }]) => [key, practised(value, unit, label)]),
  ),
  'run-seconds': remembered('EN 12274-5', '300', 's', 'Run time'),
  'soak-earliest': practised('60', 'min', 'Short soak: abrasion begins, at the earliest'),
  'soak-latest': practised('75', 'min', 'Short soak: abrasion begins, at the latest'),
}

const edition = (year: '2018' | '2003', effectiveFrom: string): BuiltInEdition => ({
  key: `en-12274-5-${year}`,
  designation: 'EN 12274-5',
  year,
  effectiveFrom,
  parameters,
})

/**
 * Wearing of a slurry surfacing on the wet track. The edition of 2003 is titled wearing alone; that of 2018 the minimum
 * binder content and wearing resistance: the content is read off the curve of wearing over the contents tested.
 */
export const wetTrackAbrasionEn = wetTrackMethod({
  key: 'wet-track-abrasion-en',
  name: 'Wearing on the wet track, EN 12274-5',
  shortName: 'Wearing, EN',
  answer: { property: 'wearing' },
  soak: { words: '1-hour soak', plausible: { from: '0.6', to: '45', source: practiceSource } },
  perArea: 'Wearing',
  source: 'EN 12274-5, from memory, unverified',
  editions: [edition('2003', '2003-01-01'), edition('2018', '2018-01-01')],
  reporting: { words: 'in g/m²', source: 'EN 12274-5 (2018), from memory, unverified' },
})
