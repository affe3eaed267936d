import { loadedWheelSandAdhesion } from '@curebook/trade/methods/loaded-wheel-sand-adhesion'
import { wetTrackAbrasion1h, wetTrackAbrasion6d } from '@curebook/trade/methods/wet-track-abrasion'

/** An id of the sample, the same in every run. */
export function sampleId(kind: number, index: number): string {
  return `0197a000-0000-7000-8000-${String(kind).padStart(4, '0')}${String(index).padStart(8, '0')}`
}

/** What of the sample is not computed: names, materials, instruments, decisions, statements. All invented. */
export function fixedParts() {
  const at = '2026-03-13T14:20:00.000Z'
  const [engineer, manager] = ['Elin Marsh', 'Marek Dunmore']
  return {
    schema: '1',
    kind: 'revision',
    laboratory: {
      name: 'Tern Hollow Surfacing Laboratory',
      address: 'Unit 4, Tern Hollow Works, Marrowdale',
      contact: 'laboratory@ternhollow.example',
      zone: 'Europe/London',
      decimalSign: '.',
      accreditation: '',
    },
    client: {
      name: 'Marrowdale County Roads',
      contact: 'Ines Calder, pavement engineer',
      address: 'County Hall, Marrowdale',
    },
    project: {
      name: 'Northern network resurfacing',
      kind: 'full design',
      reportTo: 'Ines Calder, Marrowdale County Roads',
      copiesTo: 'road owner’s file',
    },
    design: {
      id: sampleId(2, 1),
      name: 'Micro-surfacing Type II, Skerry Edge aggregate',
      revisionId: sampleId(2, 2),
      revision: '1',
      fractionUsed: 'passing 4.75 mm for discs, whole grading for strips',
      scalpedPercent: '5.9',
    },
    specification: {
      name: 'A143 Type II as adopted by the client',
      source: 'ISSA A143',
      decisionRule:
        'Simple acceptance, agreed at request: a result that meets the limit passes; measurement uncertainty is not added to or taken from the limit.',
      comparison: 'Limits are compared in g/m² with the unrounded mean.',
      aggregateType: 'Type II',
      traffic: 'heavy traffic',
      changes: ['Sand adhesion limit 538 g/m² for heavy traffic.'],
    },
    materials: [
      {
        kind: 'aggregate',
        code: 'AG-11',
        name: 'Crushed aggregate 0/6',
        sourceName: 'Skerry Edge Quarry',
        supplier: 'Skerry Edge Quarry',
        lot: 'stockpile 3',
        receivedOn: '2026-03-02',
        note: '3 bags: 24.8, 25.3, 24.1 kg',
      },
      {
        kind: 'emulsion',
        code: 'EM-07',
        name: 'Quick-set polymer-modified emulsion',
        sourceName: 'Ansel Binders',
        supplier: 'Ansel Binders',
        lot: 'load 4417',
        receivedOn: '2026-03-02',
        note: 'two 5 L containers, 27 °C on arrival, three days old, seals intact',
      },
      {
        kind: 'filler',
        code: 'FI-03',
        name: 'Cement',
        sourceName: 'works store',
        supplier: 'Marrowdale County Roads',
        lot: 'B-22',
        receivedOn: '2026-03-02',
        note: '',
      },
      {
        kind: 'additive',
        code: 'AD-02',
        name: 'Set-control additive',
        sourceName: 'Ansel Binders',
        supplier: 'Ansel Binders',
        lot: 'A-9',
        receivedOn: '2026-03-02',
        note: '0.5 L',
      },
      {
        kind: 'water',
        code: 'WA-05',
        name: 'Job water',
        sourceName: 'site tank',
        supplier: 'Marrowdale County Roads',
        lot: '',
        receivedOn: '2026-03-02',
        note: '10 L',
      },
    ],
    enteredResults: [
      {
        key: 'residue',
        label: 'Residue of the emulsion',
        typed: '62.6',
        unit: '%',
        source: 'own test, mean of three beakers: 62.4, 62.6, 62.8',
        observedOn: '2026-03-02',
        by: 'Ada Lindqvist',
      },
      {
        key: 'aggregate-moisture',
        label: 'Moisture of the aggregate in the bags',
        typed: '0.0',
        unit: '%',
        source: 'own test: oven-dry',
        observedOn: '2026-03-03',
        by: 'Ada Lindqvist',
      },
      {
        key: 'certificate-residue',
        label: 'Residue by certificate',
        typed: '62.8',
        unit: '%',
        source: 'certificate of load 4417',
        observedOn: '2026-02-27',
        by: 'Bram Osei',
      },
    ],
    methods: [wetTrackAbrasion1h, wetTrackAbrasion6d, loadedWheelSandAdhesion].map((method) => {
      const edition = method.editions[0]!
      return {
        key: method.key,
        name: method.name,
        designation: edition.designation,
        edition: edition.year,
        parameters: Object.values(edition.parameters).map(({ label, value, unit, source, certainty }) => ({
          label,
          value,
          unit,
          source,
          certainty,
        })),
      }
    }),
    instruments: [
      {
        code: 'BAL-1',
        name: 'Balance 6 kg × 0.1 g',
        kind: 'balance',
        factor: '',
        calibration: 'certificate C-2201, valid until 2026-08-14',
        usedFor: 'discs, batches',
      },
      {
        code: 'BAL-2',
        name: 'Balance 1.2 kg × 0.01 g',
        kind: 'balance',
        factor: '',
        calibration: 'certificate C-2202, valid until 2026-08-14',
        usedFor: 'strips, filler, additive',
      },
      {
        code: 'WTA-1',
        name: 'Wet track machine, reference class',
        kind: 'wet track machine',
        factor: '32.9 g/m² for each g; 3.06 g/ft² for each g; measured area 303.8 cm²',
        calibration: 'run time and speed checked 2026-02-10',
        usedFor: 'abrasion',
      },
      {
        code: 'LW-1',
        name: 'Loaded wheel, one track',
        kind: 'loaded wheel',
        factor: '73.81 g/m² for each g; frame 38.1 × 355.6 mm',
        calibration: 'load 56.8 kg checked 2026-03-10',
        usedFor: 'sand adhesion',
      },
      {
        code: 'BATH-1',
        name: 'Bath, 16 places',
        kind: 'bath',
        factor: '',
        calibration: 'logger every 10 min',
        usedFor: 'soaks',
      },
    ],
    overall:
      'Three properties meet their limits at 12.0 % emulsion; five were not tested and one has no limit. The panel is not complete.',
    recommendation: {
      emulsionPercent: '12.0',
      residualPercent: '7.5',
      toleranceResidualPercent: '0.5',
      water: '9 to 11 %',
      filler: '0.5 to 1.5 %',
      additive: '0.1 to 0.4 %',
      reason: '7.0 to 8.0 lies inside 6.9 to 8.3, below midpoint for heavy traffic.',
      by: engineer,
      at,
    },
    deviations: [
      {
        code: 'D-1',
        text: 'Soak of 11-3 lasted 79 min; the window closed at 75 min.',
        decision:
          'Accepted: a longer soak can only raise the loss. Without it the 1-hour minimum would be 6.672 % instead of 6.690 %.',
        by: manager,
        at: '2026-03-05T16:05:00.000Z',
      },
      {
        code: 'D-2',
        text: 'Bath above 26.0 °C from Sunday 22:10 to Monday 07:50, peak 27.4 °C; 15 discs of the 6-day soak were inside.',
        decision: 'Accepted: warmer water can only raise the loss.',
        by: engineer,
        at,
      },
    ],
    corrections: [
      {
        code: 'KRDN',
        label: 'W2, 13-1, 1-hour soak',
        from: '737.7',
        to: '773.7',
        reason: 'digits transposed; read again on the balance',
        by: 'Ada Lindqvist',
        at: '2026-03-06T09:12:00.000Z',
      },
    ],
    acknowledgements: [
      { point: 'The soak of 11-3 missed its window', word: 'seen', by: engineer, at },
      { point: 'Sand adhesion at 12 % has n = 2', word: 'accepted', by: engineer, at },
      { point: 'One reading was corrected', word: 'seen', by: engineer, at },
    ],
    people: [
      { name: 'Ada Lindqvist', part: 'weighed, abraded, ran the wheel' },
      { name: 'Bram Osei', part: 'mixed and cast; relief runs' },
      { name: manager, part: 'checked the work of Ada Lindqvist and Bram Osei; own relief runs checked by Bram Osei' },
      { name: engineer, part: 'recommended and approved' },
    ],
    dates: { received: '2026-03-02', firstWork: '2026-03-02', lastWork: '2026-03-13' },
    statements: [
      'The results relate only to the items tested.',
      'This report may not be reproduced except in full without the written agreement of the laboratory.',
      'The laboratory holds no record of the sampling; the results apply to the samples as received.',
      'All work was done at the address of the laboratory given on the first page.',
      'Statements of conformity name the property, the limit and the decision rule that was agreed.',
      'Results from outside the laboratory are marked where they stand.',
    ],
  }
}
