import type { SpecimenRow } from '@curebook/contract/designs'
import design from '@curebook/trade/reference-cases/marrowdale-design.json' with { type: 'json' }
import type { ControlledClock } from '#platform/clock'
import { newId } from '#platform/uuid'
import type { Services } from '../services.ts'
import { tellDiscs, tellStrips, type Specimen } from './bench-story.ts'
import { benchHand } from './demo-bench.ts'
import type { DemoCalendar } from './demo-calendar.ts'
import type { DemoInstruments } from './demo-instruments.ts'
import { loadHand } from './demo-load.ts'
import type { DemoPeople } from './demo-laboratory.ts'
import { createStory, minutesAfter } from './demo-story.ts'
import { weighedRow } from './marrowdale-accidents.ts'
import { tellBathLog } from './marrowdale-log.ts'
import { tellMachines } from './marrowdale-machines.ts'

export type Cast = {
  services: Services
  clock: ControlledClock
  calendar: DemoCalendar
  people: DemoPeople
  instruments: DemoInstruments
}

/** Order of casting by blocks, so that the day's drift does not look like an effect of the binder. */
const castOrder = [
  '10-1',
  '12-1',
  '14-1',
  '11-1',
  '13-1',
  '13-2',
  '11-2',
  '14-2',
  '12-2',
  '10-2',
  '12-3',
  '10-3',
  '13-3',
  '14-3',
  '11-3',
  // Spares last.
  '10-4',
  '12-4',
]

/**
 * The bench part of the design, day 3 to day 12, with what went wrong: a torn felt and its spare, a soak too long, digits
 * transposed, an over-poured mix, a cracked and a tacky strip. Every number goes in as it was weighed. All invented.
 */
export async function playMarrowdaleBench(cast: Cast, specimens: readonly SpecimenRow[]): Promise<void> {
  const { services, clock, people, calendar } = cast
  const story = createStory(clock)
  const scene = { ...cast, contents: design.contents }
  const hands = {
    ada: benchHand(services, clock, people.technician),
    bram: benchHand(services, clock, people.technician2),
  }
  const own = (methodKey: string) =>
    specimens
      .filter((specimen) => specimen.methodKey === methodKey)
      .flatMap((specimen): Specimen[] => {
        const row = weighedRow(specimen)
        return row ? [{ ...specimen, row }] : []
      })
  const inOrder = (found: Specimen[]) =>
    [...found].sort((a, b) => castOrder.indexOf(a.label) - castOrder.indexOf(b.label))
  const discs = inOrder(own(design.methods['1-hour']))
  const [torn, spare, late, unused] = ['10-2', '10-4', '11-3', '12-4'].map((label) =>
    discs.find((disc) => disc.label === label)!,
  ) as [Specimen, Specimen, Specimen, Specimen]
  tellDiscs(story, scene, hands.ada, discs, {
    cast: [3, '09:00'],
    ovens: ['10:45', '12:05'],
    out: [4, '08:35'],
    weigh: [4, '09:40'],
    soak: [4, '10:20'],
    soakMinutes: ({ label }) => ({ '11-3': 79, '10-4': 64 })[label] ?? 62,
    soakedAt: { '10-4': [4, '14:20'] },
    dryOut: [5, '08:00'],
    last: [5, '09:00'],
    lost: [torn, unused],
    slips: { '13-1': { typed: '737.7', reason: 'Digits transposed' } },
    // Dry by the morning: no more than 0.2 g in the hour.
    cureLoad: {
      hand: loadHand(services, clock, people.technician),
      temperature: [[4, '07:30'], '60.4'],
      checks: { '12-3': ['805.3', '805.2'], '14-3': ['785.9', '785.8'] },
      at: [
        [4, '07:30'],
        [4, '08:30'],
      ],
    },
  })
  story.when(calendar.at(4, '12:35'), () =>
    hands.ada.confirm([torn.testId], 'soak', 'start', cast.instruments['BATH-1']),
  )
  story.when(calendar.at(4, '13:37'), () =>
    hands.ada.confirm([torn.testId], 'abrade', 'start', cast.instruments['WTA-1']),
  )
  story.when(minutesAfter(calendar.at(4, '13:37'), 0.7), () =>
    hands.ada.lose(torn.testId, 'Felt tore at the clamp; stopped at 40 s'),
  )
  story.when(calendar.at(4, '14:15'), () =>
    services.bench.ending.replace(people.manager, torn.testId, {
      spareTestId: spare.testId,
      reason: 'Spare of the same content, cast the same morning',
    }),
  )
  story.when(calendar.at(4, '15:40'), () => acceptWindow(cast, late.testId))
  story.when(calendar.at(5, '16:00'), () => hands.ada.lose(unused.testId, 'Spare, not needed: no other disc was lost'))
  tellDiscs(story, scene, hands.bram, inOrder(own(design.methods['6-day'])), {
    cast: [4, '12:45'],
    ovens: ['14:10', '15:25'],
    out: [5, '08:05'],
    weigh: [5, '09:25'],
    soak: [5, '10:30'],
    soakMinutes: () => 6 * 24 * 60 + 5,
    soakedAt: {},
    dryOut: [12, '09:00'],
    last: [12, '10:05'],
    lost: [],
    seen: { '10-2': 'Edge lifted in the bath' },
    // Not constant at eight: the load dries on for an hour.
    dryLoad: {
      hand: loadHand(services, clock, people.technician2),
      temperature: [[12, '07:00'], '60.2'],
      checks: { '14-1': ['735.0', '734.4', '734.3'], '14-3': ['768.8', '768.3', '768.2'] },
      at: [
        [12, '07:00'],
        [12, '08:00'],
        [12, '09:00'],
      ],
    },
  })
  tellBathLog(story, cast)
  tellMachines(story, { ...cast, tornTestId: torn.testId })
  tellStrips(story, scene, hands.ada, own(design.methods.strip), {
    cast: [8, '13:20'],
    oven: [8, '15:45'],
    out: [9, '07:30'],
    mount: [9, '08:35'],
    dry: [9, '16:05'],
    dryOut: [10, '08:00'],
    weigh: [10, '09:00'],
    sand: [10, '09:40'],
    // 310 cycles at 44 a minute.
    lost: { '12-1': { minutes: 7, reason: 'Plate bent, strip cracked; stopped at 310 cycles' } },
    tacky: { '14-2': '640' },
  })
  await story.play()
}

/** The manager accepts the disc whose run began four minutes late. */
async function acceptWindow({ services, people }: Cast, testId: string): Promise<void> {
  const { items } = await services.deviations.list(people.manager, { open: true, designId: null })
  const deviation = items.find((item) => item.testId === testId && item.kind === 'window')
  if (!deviation) throw new Error('The story has a fault: the late run opened no deviation')
  await services.deviations.decide(people.manager, deviation.id, {
    id: newId(),
    kind: 'accept',
    reason: 'A longer soak can only raise the loss; it counts.',
    spareTestId: null,
  })
}
