import { api, journeys, of, trade, web, type Statement } from './statement.ts'

const bench = 'statements-bench'
const tablet = 'statements-tablet'

/** What a technician relies on at the bench, on a tablet, with wet or gloved hands. */
export const benchStatements: readonly Statement[] = [
  {
    id: 'T1',
    says: 'A measured value is plain text, which wheel and arrows leave alone.',
    tests: journeys(bench, 'a weight is plain text, which wheel and arrows leave alone'),
  },
  {
    id: 'T2',
    says: 'Comma and point are both read; two signs are refused, never guessed.',
    tests: [
      ...trade('quantity/typed-number', '$text', '$code: $text', 'the sentence of a refusal says what would be right'),
      ...journeys(
        bench,
        'either decimal sign is read, and echoed with the unit before it is stored; two signs are refused',
      ),
    ],
  },
  {
    id: 'T3',
    says: 'What was understood is echoed with its unit before it is stored.',
    tests: journeys(
      bench,
      'either decimal sign is read, and echoed with the unit before it is stored; two signs are refused',
    ),
  },
  {
    id: 'T4',
    says: 'The unit stands beside the field all the time, and in its name.',
    tests: [
      ...journeys(bench, 'the unit stands beside the field all the time, and in its name in words'),
      ...web('lib/typed-digits', 'a label names its unit in words'),
    ],
  },
  {
    id: 'T5',
    says: 'A unit typed along is taken, converted, or refused with the reason.',
    tests: [
      ...api('bench/bench', 'refuses what no instrument shows beside the field, and takes units and decimal commas'),
      ...trade('quantity/typed-number', 'a conversion while typing gives the digits that the decimal conversion gives'),
      ...journeys('bench-details', 'a wrong unit is refused beside the field, and what was typed stays'),
    ],
  },
  {
    id: 'T6',
    says: 'Digits are never rounded, padded or cut: on screen, in the record, in the report.',
    tests: [
      ...trade('quantity/typed-number', 'digits are never rounded, padded or cut'),
      ...of('packages/database/src/schema-chains.test.ts', 'digits stay as sent'),
      ...api('reports/render/render-report', 'every specimen with its readings as typed and its result'),
      ...journeys(bench, 'a weight is plain text, which wheel and arrows leave alone'),
    ],
  },
  {
    id: 'T7',
    says: 'Digits finer than the instrument are asked about, not altered.',
    tests: [
      ...trade('procedure/reading-check', 'digits finer than the instrument are asked about, not altered'),
      ...journeys(
        bench,
        'what is finer than the balance or odd is asked about, and what it cannot show is refused with both numbers',
      ),
    ],
  },
  {
    id: 'T8',
    says: 'The odd is asked about; the impossible is refused with both numbers.',
    tests: [
      ...trade(
        'procedure/reading-check',
        'outside the usual range is asked about and kept',
        'more than the instrument can show is refused with both numbers',
      ),
      ...journeys(
        bench,
        'what is finer than the balance or odd is asked about, and what it cannot show is refused with both numbers',
      ),
    ],
  },
  {
    id: 'T9',
    says: 'Enter stores and goes to the next field: a dozen readings without a pointer.',
    tests: [
      ...journeys(bench, 'fifteen readings of three batches by keyboard alone, Enter going on to the next each time'),
      ...journeys('accessibility', 'a rack weighed by keyboard alone'),
    ],
  },
  {
    id: 'T10',
    says: 'One reading a screen, and nothing larger than its specimen and value.',
    tests: journeys(
      bench,
      'one reading fills the screen: its specimen largest, the value and one main button in reach of a thumb',
    ),
  },
  {
    id: 'T11',
    says: 'Main buttons are 56 px high, 16 px apart, in the lower half, off the edge.',
    tests: journeys(
      bench,
      'one reading fills the screen: its specimen largest, the value and one main button in reach of a thumb',
    ),
  },
  {
    id: 'T12',
    says: 'Text of 18 px, values of 32, digits of one width, no two signs alike.',
    tests: journeys(bench, 'type reads at arm’s length: 18 px, the value 32, digits of one width, no two signs alike'),
  },
  {
    id: 'T13',
    says: 'Nothing shows only under a pointer; no double tap, long press or second finger is needed.',
    tests: web(
      'features/bench/no-hidden-gestures',
      'nothing at the bench waits for a double tap, a long press, two fingers or a pointer that rests on it',
      'a pointer over something changes its colour only: it shows nothing that was not there',
    ),
  },
  {
    id: 'T14',
    says: 'A tap acts when let go and can slide off; a second one does nothing twice.',
    tests: [
      ...journeys(bench, 'a press acts when it is let go, not when it slides off; a second tap stores nothing twice'),
      ...api(
        'bench/bench',
        'answers the same message again with the same reading, and another under its id with a conflict',
      ),
    ],
  },
  {
    id: 'T15',
    says: 'Nothing final comes of one touch: the second is in another place.',
    tests: journeys(bench, 'the act that ends a specimen asks in another place than the first touch'),
  },
  {
    id: 'T16',
    says: 'A scanned label opens its step; a wrong one says what was expected; typing always does.',
    tests: [
      ...journeys(bench, 'a scanned label opens its due step; a wrong one says which is expected'),
      ...web(
        'features/bench/step-selection',
        'codes scanned one after another are all read, and unknown ones are named',
      ),
    ],
  },
  {
    id: 'T17',
    says: 'The label of what is weighed stays in large type through the step.',
    tests: journeys(bench, 'whose weight is asked for stays on the screen in large type, however far one scrolls'),
  },
  {
    id: 'T18',
    says: 'A scan is seen, heard and felt; its sound can be off.',
    tests: [
      ...journeys(tablet, 'a label found and a wrong one are seen, heard and felt otherwise; sound can be off'),
      ...web('lib/tablet/signal', 'sound off is silent and still felt; vibration off is still heard'),
    ],
  },
  {
    id: 'T19',
    says: 'A timer is right after a reload, a closed tab, sleep, on another device.',
    tests: [
      ...journeys(
        bench,
        'windows that run stand in one strip on every bench screen, and are right after the page was closed',
      ),
      ...web(
        'features/bench/running-step',
        'a run is on from its start, and its clock stays for an hour after its end',
      ),
    ],
  },
  {
    id: 'T20',
    says: 'Time left is computed from time stamps; a device off by over 2 s is told so.',
    tests: [
      ...journeys(bench, 'a tablet whose clock is off is told so, and shows the laboratory’s time all the same'),
      ...web(
        'features/bench/laboratory-clock',
        'the offset is what the laboratory’s clock is ahead of the device when the answer came',
        'a device more than two seconds off is told so, either way',
      ),
    ],
  },
  {
    id: 'T21',
    says: 'All windows of a person run in one strip, soonest first, in words and a bar.',
    tests: [
      ...journeys(
        bench,
        'windows that run stand in one strip on every bench screen, and are right after the page was closed',
      ),
      ...web(
        'features/bench/running-groups',
        'all running windows stand in one strip, what comes next first, those of one load together',
      ),
    ],
  },
  {
    id: 'T22',
    says: 'Two warnings come before a window closes, of one’s own setting; that notifications are not allowed is said before.',
    tests: [
      ...journeys(
        tablet,
        'before a window closes two warnings come, when one has set them, by sound, vibration, title and notification',
      ),
      ...web(
        'features/bench/window-warnings',
        'each of the two is given once',
        'a tablet that slept past the first gives the last alone, and never the first after it',
      ),
    ],
  },
  {
    id: 'T23',
    says: 'The screen stays awake in the last minutes; a low battery is told.',
    tests: [
      ...journeys(tablet, 'the screen stays on in the last minutes of a window, and a low battery is told'),
      ...web('features/bench/window-warnings', 'the last minutes are those before a window opens and before it closes'),
    ],
  },
  {
    id: 'T24',
    says: 'A countdown is not read out each second, but at five minutes, one and none.',
    tests: [
      ...journeys(
        bench,
        'windows that run stand in one strip on every bench screen, and are right after the page was closed',
      ),
      ...web(
        'features/bench/window-announcement',
        'a closing window is told of at five minutes, at one, and when it closes; not at each second',
      ),
    ],
  },
  {
    id: 'T25',
    says: 'A missed window is shown, asks for a reason, and cannot be hidden or dated back.',
    tests: [
      ...journeys('bench-details', 'a run begun too late is missed, and the manager decides with a reason'),
      ...api(
        'bench/bench',
        'opens a deviation when a window is missed, and counts the specimen until somebody decides',
        'wants a word when it was more than 10 minutes ago, and no time in the future',
      ),
    ],
  },
  {
    id: 'T26',
    says: 'Without network entry goes on; a bar counts what is unsent, each reading says where it is.',
    tests: journeys(bench, 'without network one goes on: a bar counts what is not sent, and each goes once'),
  },
  {
    id: 'T27',
    says: 'A reload or crash loses neither a reading nor a draft.',
    tests: [
      ...journeys('bench-details', 'a reload between Enter and the answer loses no reading'),
      ...journeys(bench, 'what is half typed outlives a turn of the tablet and a reload'),
    ],
  },
  {
    id: 'T28',
    says: 'The queue goes once and in order; a conflict shows both values and asks.',
    tests: [
      ...web(
        'lib/outbox/outbox',
        'sends the readings of a test in the order they were made, and does not pass one that waits',
      ),
      ...journeys(bench, 'without network one goes on: a bar counts what is not sent, and each goes once'),
      ...journeys(
        'bench-details',
        'two people on one step: the second sees both values and chooses, and nothing is overwritten',
      ),
    ],
  },
  {
    id: 'T29',
    says: 'The time is that of Enter on the device; that of arrival is kept beside it.',
    tests: [
      ...api(
        'bench/observed-at',
        'is when Enter was pressed, however long it waited for the network; when it arrived is kept beside it',
      ),
      ...web('lib/outbox/sending-time', 'the time of sending is that of this sending; the time of the event stays'),
    ],
  },
  {
    id: 'T30',
    says: 'A correction keeps the old value, struck through, with who, when and why, in two taps.',
    tests: [
      ...journeys('bench-details', 'a slip is corrected in two taps, and the old value stays, struck through'),
      ...of('packages/database/src/schema-chains.test.ts', 'a correction gives its reason, a first entry has none'),
    ],
  },
  {
    id: 'T31',
    says: 'Taken back within ten seconds, an entry stays in the record, struck through.',
    tests: [
      ...journeys(
        tablet,
        'for ten seconds what was entered is taken back at a touch, and stays in the record, struck through',
      ),
      ...api(
        'bench/withdrawals',
        'stays, struck through with who and why; its slot is open and the next one stands in its place',
      ),
    ],
  },
  {
    id: 'T32',
    says: 'What a specimen weighed before stands beside the field, with the difference as one types.',
    tests: [
      ...journeys(bench, 'what it weighed before stands beside the field, with the loss as one types'),
      ...web('features/bench/difference', 'the running difference is exact, with as many decimals as were weighed'),
    ],
  },
  {
    id: 'T33',
    says: 'Cautions stand before the button, in sight without scrolling.',
    tests: journeys(bench, 'cautions stand before the button, in sight on a tablet without scrolling'),
  },
  {
    id: 'T34',
    says: 'What may not count says which, since when, and who can put it right, with the way there.',
    tests: [
      ...journeys(
        tablet,
        'a balance out of calibration says since when, what that means, who can put it right, and where',
      ),
      ...api('bench/equipment-holds', 'says at the bench which, since when, and who can put it right'),
      ...api('bench/holds', 'waits for release from the first authorisation of the method on'),
    ],
  },
  {
    id: 'T35',
    says: 'An on-screen keyboard covers neither field, unit, echo nor main button.',
    tests: journeys(bench, 'over an on-screen keyboard field, unit, echo and main button stay in sight'),
  },
  {
    id: 'T36',
    says: 'With fifty specimens waiting it answers within 200 ms on a slow tablet.',
    tests: web('features/bench/bench-groups', 'seventeen discs that wait for one weighing are one row'),
    measured: of(
      'tests/load/measure-pages.ts',
      'Bench, specimens and batches waiting',
      'Bench, slowest interaction at ',
    ),
  },
  {
    id: 'T37',
    says: 'Another person takes the tablet in three taps; two people’s entries never mix.',
    tests: [
      ...journeys(tablet, 'another person takes the tablet in three taps, and keeps their own timers and entries'),
      ...web(
        'lib/outbox/outbox',
        'never sends what another person entered',
        'what comes while somebody else is signed in waits for its own person',
      ),
    ],
  },
  {
    id: 'T38',
    says: 'The main button stands left, right or in the middle.',
    tests: journeys(tablet, 'the main button stands where the free thumb is: left, in the middle, or right'),
  },
  {
    id: 'T39',
    says: 'Upright and across both work; turning keeps what was typed.',
    tests: journeys(bench, 'what is half typed outlives a turn of the tablet and a reload'),
  },
]
