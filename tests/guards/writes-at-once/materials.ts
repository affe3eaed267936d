import { api } from '../../statements/statement.ts'
import { edits, oneName, row, takingBack, uniqueName, type Write } from './write.ts'

export const materialWrites: readonly Write[] = [
  // Materials, custody, places
  row(
    'POST /materials',
    'the next code',
    'counter row, taken last',
    api('materials/materials', 'samples entered at once through two servers get codes of their own'),
  ),
  row('POST /items/:item/custody', 'who has it, what is left', 'row of the item', [
    ...api(
      'custody/custody',
      'two who take it over at once through two servers: one has it, the other is told',
      'two who first take a specimen at once: it has one first custodian',
    ),
    ...api('custody/draws', 'a weighing and a split at once: what is left knows of both, whichever was first'),
  ]),
  row(
    'POST /items/:item/receipt-corrections',
    'the receipt that stands, what left the sample',
    'row of the item',
    api(
      'custody/receipt-correction',
      'two corrections at once: one stands, the other is told; a split at once is held against what stands',
    ),
  ),
  row(
    'POST /items/:item/label-prints',
    'the request key',
    'primary key of the request',
    api('labels/labels', 'sent twice by one press, also at once, are one print'),
  ),
  row(
    'POST /places',
    oneName,
    uniqueName,
    api('custody/places', 'made at once through two servers a name stands once; one place sent twice at once is one'),
  ),
  row(
    'POST /attachments',
    'the id',
    'primary key, read again by `createOnce`',
    api('attachments/attachments', 'sent twice at once through two servers is one file'),
  ),
  // Instruments
  row(
    'POST /instruments',
    oneName,
    uniqueName,
    api(
      'instruments/instruments',
      'entered at once through two servers under one code, or twice by one press, stands once',
    ),
  ),
  row('PATCH /instruments/:instrument', 'version', 'row of the instrument', edits),
  row(
    'POST /instruments/:instrument/factors',
    'the factor that stands',
    'row of the instrument',
    api('instruments/instruments', 'two people entering or replacing a factor at once through two servers: one stands'),
  ),
  row(
    'POST /instruments/:instrument/calibrations',
    'whether it was taken back; every calibration stands',
    'trigger `refuse_withdrawn`',
    [
      ...api(
        'instruments/instruments',
        'two calibrations entered at once both stand, and the later one counts; one sent twice at once is one',
      ),
      ...api('instruments/instrument-taken-back', takingBack),
    ],
  ),
  row(
    'POST /instruments/:instrument/parts',
    'the entry that stands, the lot',
    'row of the instrument; unique lot',
    api(
      'instruments/part-fittings',
      'entered in error is superseded with the reason; of two corrections at once one stands',
      'two new lots at once both stand in the record, and one is on',
      'a lot named for the first time on two machines at once is one lot',
    ),
  ),
  row(
    'POST /instruments/:instrument/checks',
    'the entry that stands',
    'row of the instrument',
    api('instruments/instrument-checks', 'of two corrections of one entry at once one stands, the other is told'),
  ),
  row(
    'POST /instruments/:instrument/lines',
    'the one that stands',
    'row of the instrument',
    api(
      'instruments/instrument-lines',
      'of two at once one stands and the other is told, for the first one as for a change',
    ),
  ),
  row(
    'POST /instrument-imports',
    'codes that are taken',
    uniqueName,
    api(
      'instruments/instrument-imports',
      'two people at once through two servers: one import of the same codes stands, and one taking back',
    ),
  ),
  row(
    'POST /instrument-imports/:import/withdrawal',
    'whether any was used',
    'rows of its instruments; trigger `refuse_withdrawn`',
    [
      ...api(
        'instruments/instrument-imports',
        'one taking back sent twice at once through two servers happens once, and both are answered alike',
      ),
      ...api(
        'instruments/instrument-taken-back',
        takingBack,
        'a weighing and a taking back at once through two servers: one of the two stands',
      ),
    ],
  ),
  row(
    'POST /instruments/:instrument/conditions',
    'values that are stored, deviations that stand',
    'advisory lock of the log, then of each deviation',
    api(
      'bench/conditions',
      'does not grow under somebody who decides at the same moment',
      'keeps a value once when it arrives twice at once, and refuses another under its id',
    ),
  ),
  row(
    'POST /instruments/:instrument/conditions/:value/corrections',
    'the value that stands',
    'advisory lock of the log',
    api('bench/condition-judged-anew', 'is corrected once of two at once, and by nobody where a logger sent it'),
  ),
  row(
    'POST /instruments/:instrument/keys',
    'the key that stands',
    'advisory lock of the log',
    api(
      'bench/conditions',
      'is made by a manager, and of two made at once one stands',
      'that is ended while a value is on its way keeps that value no more',
    ),
  ),
  row(
    'POST /conditions',
    'the key, values that are stored',
    'advisory lock of the log',
    api(
      'bench/conditions',
      'opens one deviation when two loggers post at once',
      'that is ended while a value is on its way keeps that value no more',
    ),
  ),
]
