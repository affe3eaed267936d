/** One method that a panel asks for, with the properties that answer it. */
export type PanelTest = {
  /** As the source names it: "ISSA TB-100". */
  readonly designation: string
  readonly title: string
  readonly properties: readonly { readonly property: string; readonly soak: string | null; readonly label: string }[]
}

/** A ready-made set of tests. It names methods; limits stand in the specification. */
export type TestPanel = {
  readonly key: string
  readonly name: string
  readonly source: string
  readonly certainty: 'published'
  readonly tests: readonly PanelTest[]
}

const of = (property: string, label: string, soak: string | null = null) => ({ property, soak, label })
const test = (designation: string, title: string, ...properties: PanelTest['properties']): PanelTest => ({
  designation,
  title,
  properties,
})

const oneHour = of('abrasion-loss', 'Abrasion loss, 1-hour soak', '1-hour')
const sixDay = of('abrasion-loss', 'Abrasion loss, 6-day soak', '6-day')
const adhesion = test('ISSA TB-109', 'Loaded wheel sand adhesion', of('sand-adhesion', 'Sand adhesion'))
const trialMix = test('ISSA TB-113', 'Trial mix', of('mix-time', 'Mix time'))
const stripping = test('ISSA TB-114', 'Wet stripping', of('wet-stripping', 'Wet stripping, surface still coated'))
const cohesion = test(
  'ISSA TB-139',
  'Set and cure by cohesion',
  of('cohesion-30-min', 'Cohesion at 30 min'),
  of('cohesion-60-min', 'Cohesion at 60 min'),
)

/**
 * The method sets of the two AASHTO practices, to begin a design's tests with. Which bulletins each names was read in their
 * opening pages; which soaks and times belong to them is that of the guideline it designs for.
 */
export const panels: readonly TestPanel[] = [
  {
    key: 'aashto-pp-83',
    name: 'Micro-surfacing, AASHTO PP 83 with MP 28',
    source: 'AASHTO PP 83-16 (2016)',
    certainty: 'published',
    tests: [
      test('ISSA TB-100', 'Wet track abrasion', oneHour, sixDay),
      adhesion,
      trialMix,
      stripping,
      cohesion,
      test('ISSA TB-144', 'Compatibility of aggregate, filler and binder', of('compatibility', 'Compatibility')),
      test(
        'ISSA TB-147',
        'Displacement under the loaded wheel',
        of('lateral-displacement', 'Lateral displacement'),
        of('vertical-displacement', 'Vertical displacement'),
        of('specific-gravity', 'Specific gravity after 1000 cycles'),
      ),
    ],
  },
  {
    key: 'aashto-pp-87',
    name: 'Slurry seal, AASHTO PP 87 with MP 32',
    source: 'AASHTO PP 87-17 (2017)',
    certainty: 'published',
    tests: [
      test('ISSA TB-100', 'Wet track abrasion', oneHour),
      test('ISSA TB-106', 'Consistency by cone', of('consistency', 'Consistency')),
      adhesion,
      trialMix,
      stripping,
      cohesion,
    ],
  },
]
