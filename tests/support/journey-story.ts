import type { Page } from 'playwright-core'
import type { Journey, Person } from './journey.ts'
import { confirmActs, openTask, weighBatches, weighRack } from './journey-bench.ts'
import { at, batchOf, plus, rowsOf as rowsOfTest, shortNames, type Day, type WeighedRow } from './journey-design.ts'
import type { PlannedSpecimen } from './journey-desk.ts'

export type BenchStory = ReturnType<typeof createBenchStory>

/** An act in turn: from when, and for whom at another time. */
type TurnAct = {
  readonly step: string
  readonly act: string
  readonly first: string
  readonly times?: Readonly<Record<string, string | null>>
}
type Scene = { readonly time: string; readonly run: () => Promise<void> }

/** Discs that go into the oven together. */
const load = 8

/** What one technician does at the bench with the specimens of the design, moving the clock to the time of each act. */
export function createBenchStory({
  journey,
  technician,
  shortName,
  specimens,
  contents,
  rows = rowsOfTest,
}: {
  journey: Journey
  technician: Person
  shortName: string
  specimens: readonly PlannedSpecimen[]
  /** Only these emulsion contents of the design; all of them without. */
  contents?: readonly string[]
  /** What is weighed of each specimen of a test; without, what the clean design says. */
  rows?: (test: string) => readonly WeighedRow[]
}) {
  const { page, context } = technician
  let typed = 0
  const rowsOf = (test: string) =>
    rows(test).filter(({ label }) => contents === undefined || contents.includes(label.split('-')[0]!))
  const rowOf = (test: string, label: string): WeighedRow => rowsOf(test).find((row) => row.label === label)!
  const codeOf = (test: string, label: string) =>
    specimens.find((found) => found.test === test && found.label === label)!.code
  const codesOf = (test: string, labels: readonly string[] = rowsOf(test).map(({ label }) => label)) =>
    labels.map((label) => codeOf(test, label))

  /** Batches in the order in which they are offered, each as its row says; the codes of what was weighed in. */
  async function weighIn(test: string, count: number, moment: (index: number) => string): Promise<string[]> {
    await openTask(page, 'Weigh the components')
    const readings = await weighBatches(page, count, {
      before: (index) => journey.clockTo(moment(index)),
      of: ({ code }) => batchOf(rowOf(test, specimens.find((specimen) => specimen.code === code)!.label)),
    })
    typed += readings.length
    return [...new Set(readings.map(({ code }) => code))]
  }
  async function confirm(act: string, step: string, test: string, moment: string, codes = codesOf(test)) {
    await journey.clockTo(moment)
    await openTask(page, step, act, shortNames[test]!)
    await confirmActs(page, act, codes)
  }
  async function secondPage(): Promise<Page> {
    const second = await context.newPage()
    await second.goto(`/l/${shortName}/bench`)
    return second
  }

  return {
    codeOf,
    codesOf,
    readingsTyped: () => typed,

    /** Discs in two loads: weighed in every so many minutes, cast, and into the oven. */
    async castDiscs(test: string, day: Day, { first, every }: { first: string; every: number }) {
      const count = codesOf(test).length
      for (let from = 0; from < count; from += load) {
        const to = Math.min(from + load, count)
        const cast = await weighIn(test, to - from, (index) => at(day, plus(first, every * (from + index))))
        await confirm('Cast', 'Cast the disc', test, at(day, plus(first, every * to)), cast)
        const oven = at(day, plus(first, every * to + 10))
        await confirm('In the oven', 'Cure in the oven', test, oven, cast)
      }
    },
    async castStrips(test: string, day: Day, { first, every }: { first: string; every: number }) {
      const count = rowsOf(test).length
      await weighIn(test, count, (index) => at(day, plus(first, every * index)))
      await confirm('Cast', 'Cast the strip', test, at(day, plus(first, every * count)))
    },
    intoTheOven: (test: string, step: string, day: Day, time: string, labels?: readonly string[]) =>
      confirm('In the oven', step, test, at(day, time), codesOf(test, labels)),
    async outOfTheOven(
      test: string,
      step: string,
      day: Day,
      { out, cooled, labels }: { out: string; cooled: string; labels?: readonly string[] },
    ) {
      await confirm('Out of the oven', step, test, at(day, out), codesOf(test, labels))
      await confirm('Cooled', 'Cool down', test, at(day, cooled), codesOf(test, labels))
    },
    cooled: (test: string, day: Day, time: string) => confirm('Cooled', 'Cool down', test, at(day, time)),
    /** A rack in the order of the labels given, else from the last to the first. */
    async weigh(
      test: string,
      step: string,
      {
        key,
        day,
        time,
        order,
        slips = {},
      }: {
        key: 'w1' | 'w2'
        day: Day
        time: string
        order?: readonly string[]
        /** Typed at first in place of what the balance shows, by label. */
        slips?: Readonly<Record<string, string>>
      },
    ) {
      await journey.clockTo(at(day, time))
      await openTask(page, step, shortNames[test]!)
      const places =
        order ??
        rowsOf(test)
          .map(({ label }) => label)
          .toReversed()
      const weights = places.map((label) => ({
        code: codeOf(test, label),
        typed: slips[label] ?? rowOf(test, label)[key]!,
      }))
      await weighRack(page, weights)
      typed += weights.length
    },
    /** One act for one specimen after another, so many minutes apart. */
    async oneByOne(
      test: string,
      act: string,
      {
        step,
        day,
        first,
        every,
        order,
      }: { step: string; day: Day; first: string; every: number; order: readonly string[] },
    ) {
      for (const [index, label] of order.entries()) {
        await journey.clockTo(at(day, plus(first, every * index)))
        if (index === 0) await openTask(page, step, act, shortNames[test]!)
        await confirmActs(page, act, [codeOf(test, label)])
      }
    },
    /**
     * Two acts of the same person on two pages, each at its time: one follows the other for every specimen. `times` tells
     * acts at another time than in turn (null: not at all), `between` what happens at a time of its own.
     */
    async inTurn(
      test: string,
      day: Day,
      one: TurnAct,
      other: TurnAct,
      {
        every,
        order,
        between = {},
      }: { every: number; order: readonly string[]; between?: Readonly<Record<string, () => Promise<void>>> },
    ) {
      const second = await secondPage()
      const opened = new Set<Page>()
      const scenesOf = ({ step, act, first, times = {} }: TurnAct, place: Page): Scene[] =>
        order.flatMap((label, index) => {
          const time = times[label] === undefined ? plus(first, every * index) : times[label]
          if (time === null) return []
          const run = async () => {
            if (!opened.has(place)) await openTask(place, step, act, shortNames[test]!)
            opened.add(place)
            await confirmActs(place, act, [codeOf(test, label)])
          }
          return [{ time, run }]
        })
      const scenes = [
        ...scenesOf(one, page),
        ...scenesOf(other, second),
        ...Object.entries(between).map(([time, run]) => ({ time, run })),
      ]
      for (const { time, run } of scenes.toSorted((a, b) => a.time.localeCompare(b.time))) {
        await journey.clockTo(at(day, time))
        await run()
      }
      await second.close()
    },
    /** Each strip is sanded on one page and weighed at once on another. */
    async sandAndWeigh(test: string, day: Day, { first, every }: { first: string; every: number }) {
      const second = await secondPage()
      const sanded = rowsOf(test).filter(({ w2 }) => w2 !== undefined)
      for (const [index, row] of sanded.entries()) {
        const code = codeOf(test, row.label)
        await journey.clockTo(at(day, plus(first, every * index)))
        if (index === 0) await openTask(page, 'Run the sand cycles', shortNames[test]!)
        await confirmActs(page, 'Sand poured, wheel started', [code])
        await journey.clockTo(at(day, plus(first, every * index + 6)))
        if (index === 0) await openTask(second, 'Weigh after sanding (W2)', shortNames[test]!)
        await second.getByRole('row').filter({ hasText: code }).first().waitFor()
        await weighRack(second, [{ code, typed: row.w2! }])
        typed += 1
      }
      await second.close()
    },
    /** On a page of its own, beside what goes on. */
    async aside(work: (aside: Page) => Promise<void>) {
      const third = await secondPage()
      await work(third)
      await third.close()
    },
    async voidSpecimen(code: string, reason: string, place: Page = page) {
      await place.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Bench' }).click()
      await place.getByLabel('Code of a specimen or batch').fill(code)
      await place.keyboard.press('Enter')
      await place.getByRole('button', { name: /^Void / }).click()
      const dialog = place.getByRole('dialog')
      await dialog.getByLabel('What happened').fill(reason)
      await dialog.getByRole('button', { name: /^Void / }).click()
      await dialog.waitFor({ state: 'detached' })
    },
  }
}
