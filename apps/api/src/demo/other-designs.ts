/**
 * Further designs of the demonstration laboratory, invented throughout: losses and sand in g by emulsion content, as the
 * balance would show them, in the order of the replicates. The shapes follow what such mixes do: abrasion falls, halving
 * every 1 to 1.5 % of residual binder, and sand adhesion rises.
 */
export type OtherDesign = {
  readonly key: 'open' | 'without-range' | 'slurry'
  readonly client: 'marrowdale' | 'pellworth'
  readonly projectName: string
  readonly designName: string
  readonly builtInKey: string
  readonly specificationName: string
  readonly aggregate: { readonly name: string; readonly sourceName: string; readonly note: string }
  readonly emulsion: { readonly name: string; readonly lot: string }
  readonly residue: string
  readonly residueSource: string
  /** Water, filler and additive of every content, % of dry aggregate. */
  readonly shares: { readonly waterPercent: string; readonly fillerPercent: string; readonly additivePercent: string }
  readonly series: readonly {
    readonly methodKey: string
    readonly changes: Readonly<Record<string, readonly string[]>>
  }[]
  /** Working days before the present on which the first specimen was cast. */
  readonly daysAgo: number
}

const oneHour = 'wet-track-abrasion-1h'
const sixDay = 'wet-track-abrasion-6d'
const strip = 'loaded-wheel-sand-adhesion'

export const otherDesigns: readonly OtherDesign[] = [
  {
    key: 'open',
    client: 'marrowdale',
    projectName: 'Estate roads programme',
    designName: 'Micro-surfacing Type II, all contents meet',
    builtInKey: 'issa-a143-2010',
    specificationName: 'A143 Type II values as adopted, estate roads',
    aggregate: { name: 'Type II aggregate, washed', sourceName: 'Skerry Edge Quarry', note: 'Four bags, 98 kg, sound' },
    emulsion: { name: 'Quick-set polymer-modified emulsion', lot: 'load 4391' },
    residue: '63.0',
    residueSource: 'Own test, ASTM D6934: mean of three beakers',
    shares: { waterPercent: '10.0', fillerPercent: '1.0', additivePercent: '0.2' },
    series: [
      {
        methodKey: oneHour,
        changes: {
          '10': ['9.6', '10.4'],
          '11': ['7.9', '7.3'],
          '12': ['6.4', '5.9'],
          '13': ['5.3', '5.0'],
          '14': ['4.7', '4.4'],
        },
      },
      {
        methodKey: sixDay,
        changes: {
          '10': ['16.4', '17.5'],
          '11': ['13.6', '12.9'],
          '12': ['11.0', '11.7'],
          '13': ['9.4', '8.8'],
          '14': ['8.3', '7.7'],
        },
      },
      {
        methodKey: strip,
        changes: {
          '10': ['2.91', '3.05'],
          '11': ['3.44', '3.29'],
          '12': ['3.98', '4.16'],
          '13': ['4.71', '4.52'],
          '14': ['5.55', '5.38'],
        },
      },
    ],
    daysAgo: 60,
  },
  {
    key: 'without-range',
    client: 'marrowdale',
    projectName: 'Lowmoor lanes trial',
    designName: 'Micro-surfacing Type II, clayey pit aggregate',
    builtInKey: 'issa-a143-2010',
    specificationName: 'A143 Type II values as adopted, Lowmoor lanes',
    aggregate: {
      name: 'Type II aggregate, pit run',
      sourceName: 'Lowmoor Pit',
      note: 'Three bags, 71 kg; clay lumps seen, sand equivalent 48',
    },
    emulsion: { name: 'Quick-set polymer-modified emulsion', lot: 'load 4402' },
    residue: '62.8',
    residueSource: 'Own test, ASTM D6934: mean of three beakers',
    shares: { waterPercent: '12.0', fillerPercent: '1.5', additivePercent: '0.4' },
    series: [
      {
        methodKey: oneHour,
        changes: {
          '11': ['27.3', '25.9'],
          '12': ['21.2', '22.4'],
          '13': ['16.0', '15.1'],
          '14': ['11.8', '12.5'],
          '15': ['9.0', '9.6'],
        },
      },
      {
        methodKey: sixDay,
        changes: {
          '11': ['47.2', '44.8'],
          '12': ['38.9', '40.6'],
          '13': ['31.4', '30.2'],
          '14': ['25.1', '26.3'],
          '15': ['19.8', '18.9'],
        },
      },
      {
        methodKey: strip,
        changes: {
          '11': ['4.12', '4.36'],
          '12': ['5.61', '5.38'],
          '13': ['7.35', '7.62'],
          '14': ['9.12', '8.85'],
          '15': ['11.02', '10.61'],
        },
      },
    ],
    daysAgo: 46,
  },
  {
    key: 'slurry',
    client: 'pellworth',
    projectName: 'Taxiway shoulders',
    designName: 'Slurry seal Type II, conventional',
    builtInKey: 'issa-a105',
    specificationName: 'A105 Type II values as adopted',
    aggregate: {
      name: 'Type II aggregate, crushed',
      sourceName: 'Skerry Edge Quarry',
      note: 'Three bags, 75 kg, sound',
    },
    emulsion: { name: 'Slow-set emulsion, unmodified', lot: 'load 2208' },
    residue: '60.4',
    residueSource: 'Certificate of Ansel Binders, load 2208',
    shares: { waterPercent: '12.0', fillerPercent: '0.5', additivePercent: '0.0' },
    series: [
      {
        methodKey: oneHour,
        changes: { '13': ['33.8', '32.1'], '15': ['24.4', '25.7'], '17': ['17.0', '16.2'], '19': ['11.2', '10.6'] },
      },
      {
        methodKey: strip,
        changes: { '13': ['3.02', '3.21'], '15': ['4.18', '4.01'], '17': ['5.94', '5.63'], '19': ['8.11', '8.47'] },
      },
    ],
    daysAgo: 33,
  },
]
