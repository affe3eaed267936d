import { api, journeys, trade, web, type Statement } from './statement.ts'

const schedule = 'statements-schedule'

/** What a manager relies on: the Schedule, the search and the labels. */
export const scheduleStatements: readonly Statement[] = [
  {
    id: 'M1',
    says: 'The first screen says what is late, due today and stuck; each number leads to exactly its rows.',
    tests: [
      ...journeys(
        schedule,
        'what is late, due today, stuck, unassigned or undecided is a number, and leads to exactly so many rows',
      ),
      ...web('features/schedule/schedule-view', 'each number is that of exactly the rows behind its link'),
    ],
  },
  {
    id: 'M2',
    says: 'One or many are given by key or pointer, after what speaks against it was said.',
    tests: [
      ...journeys(
        schedule,
        'rows are chosen with Shift by key and by pointer, and given after what speaks against it was said',
      ),
      ...api(
        'schedule/assignment-check',
        'more hands-on work than a shift holds is said, with what the person has already',
        'once anybody is authorised for the method, whoever is not is named with the specimens; on the last day one still is',
      ),
    ],
  },
  {
    id: 'M3',
    says: 'What is chosen stays chosen on other pages and under filters, counted, with Clear beside it.',
    tests: [
      ...journeys(
        schedule,
        'what is chosen stays chosen under a filter; its count is always shown, with Clear beside it',
      ),
      ...web('components/table-order', 'what is chosen on another page stays chosen'),
    ],
  },
  {
    id: 'M4',
    says: 'An act for many tells each row’s outcome; what failed stays chosen.',
    tests: journeys(schedule, 'each row has its outcome, and what was refused stays chosen'),
  },
  {
    id: 'M5',
    says: 'A load is told in hours and windows; overlaps are said in words.',
    tests: [
      ...journeys(schedule, 'a load is told in windows and hours, and every date has its weekday'),
      ...web(
        'features/schedule/schedule-view',
        'a load is windows and hours of today, and overlaps of two steps are named',
      ),
    ],
  },
  {
    id: 'M6',
    says: 'Only a begun test asks for a reason to change hands; both people are told.',
    tests: [
      ...journeys(
        schedule,
        'a begun test asks for the reason before it goes to another person; one not begun asks for none',
      ),
      ...api('schedule/schedule', 'a begun test changes hands only with a reason; the others of the same act go on'),
    ],
  },
  {
    id: 'M7',
    says: 'Nothing has to be dragged.',
    tests: web(
      'features/schedule/no-dragging',
      'nothing is moved by dragging: every move is a button with words (ux M7)',
    ),
  },
  {
    id: 'M8',
    says: 'Tables say their order; head and first column stay; columns and density are kept.',
    tests: journeys(
      schedule,
      'the order is said by the head and stands in the address; head and first column stay; columns and density are kept',
    ),
  },
  {
    id: 'M9',
    says: 'Filters are chips and stand in the address; a usual view can be kept and shared.',
    tests: journeys(
      schedule,
      'filters are chips to take off and stand in the address, which shows another person the same view',
    ),
  },
  {
    id: 'M10',
    says: 'Numbers in columns are right-aligned, of the same decimals, their unit in the head.',
    tests: journeys(
      schedule,
      'numbers stand right-aligned under a head that names their unit, with as many decimals each',
    ),
  },
  {
    id: 'M11',
    says: 'Changes of others move no row: a bar tells of them.',
    tests: [
      ...journeys(schedule, 'what others change waits in a bar and moves no row until it is asked for'),
      ...web(
        'features/schedule/schedule-view',
        'rows that came, went or changed are counted; the passing of time is none',
      ),
    ],
  },
  {
    id: 'M12',
    says: 'A file holds what is on the screen, and is named by laboratory, view and day.',
    tests: journeys(
      schedule,
      'the file holds the rows, columns and order of the screen, and is named by laboratory, view and day',
    ),
  },
  {
    id: 'M13',
    says: 'An import shows its faults by line, stores all or nothing, and can be taken back.',
    tests: [
      ...journeys(
        schedule,
        'a file shows its faults by line and stores nothing until all is right; what came in is taken back as a whole',
      ),
      ...api('instruments/instrument-file', 'each fault is a sentence with its line and column'),
      ...api(
        'instruments/instrument-imports',
        'a preview says what would come in and where it is wrong, and stores nothing',
        'all of a file comes in at once, with calibration and factor; sent again it is the same import',
        'an import is taken back as a whole, with by whom, when and why; its codes are free for the file put right',
      ),
    ],
  },
  {
    id: 'M14',
    says: 'Dates have weekdays; closed days show, and a window that falls on one is told when planning.',
    tests: [
      ...journeys(schedule, 'a load is told in windows and hours, and every date has its weekday'),
      ...api('schedule/assignment-check', 'a window that closes on a Saturday is said, and by which day'),
      ...web(
        'features/designs/casting-days',
        'what a chosen day would mean is said with the next day that does, single closed dates included',
      ),
      ...trade('procedure/closed-days', 'a Sunday and a holiday are closed'),
    ],
  },
  {
    id: 'M15',
    says: 'Ctrl with K searches everything, says why something was found, and Enter opens it.',
    tests: [
      ...journeys(schedule, 'Ctrl with K searches; what is found says why, and Enter opens it'),
      ...api('search/search', 'says of each thing in which field the words stand, the exact ones first'),
    ],
  },
  {
    id: 'M16',
    says: 'Labels show and print in true size, with count and printer hint; each print is recorded.',
    tests: [
      ...journeys(
        schedule,
        'a label is shown and printed in true size, as many as asked for, and each print is recorded',
      ),
      ...api('labels/labels', 'are recorded at each print, the first and every one again, by whom and how many'),
    ],
  },
]
