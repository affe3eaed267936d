import { practised, practiceSource, published } from './edition-parameter.ts'
import { wetTrackParameters } from './wet-track-abrasion.ts'
import { wetTrackMethod } from './wet-track-method.ts'

/**
 * A modified TB-100 of a bid note for a mastic surface (Kansas DOT): a soak of 3 days. It is a product of its own, with
 * losses of a tenth of those of slurry seal and micro-surfacing; no built-in specification asks for it. Only the length of
 * the soak was read; how far it may run over is practice, as are the losses that are asked about.
 */
export const wetTrackAbrasion3d = wetTrackMethod({
  key: 'wet-track-abrasion-3d',
  name: 'Wet track abrasion, 3-day soak (mastic surface)',
  shortName: 'Abrasion, 3 d',
  answer: { property: 'abrasion-loss', soak: '3-day' },
  soak: { words: '3-day soak', plausible: { from: '0', to: '45', source: practiceSource } },
  source: 'ISSA TB-100, modified, from memory, unverified',
  editions: [
    {
      key: 'tb-100-modified-3-day',
      designation: 'ISSA TB-100, modified for a mastic surface',
      year: 'year not checked',
      effectiveFrom: '2010-01-01',
      parameters: {
        ...wetTrackParameters,
        'soak-earliest': published(
          'Kansas DOT, bid note for a mastic surface; year not seen',
          undefined,
          '72',
          'h',
          '3-day soak: abrasion begins, at the earliest',
        ),
        'soak-latest': practised('74', 'h', '3-day soak: abrasion begins, at the latest'),
      },
    },
  ],
})
