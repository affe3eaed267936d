import type { Page } from 'playwright-core'
import type { Journey, Person } from './journey.ts'
import { confirmActs, openTask, weighBatches, weighRack } from './journey-bench.ts'
import { at, batchOf, plus, rowsOf as rowsOfTest, shortNames, type Day } from './journey-design.ts'
import type { PlannedSpecimen } from './journey-desk.ts'

export type BenchStory = ReturnType<typeof createBenchStory>

/** Discs that go into the oven together. */
const load = 8

/** What one technician does at the bench with the specimens of the design, moving the clock to the time of each act. */
export function createBenchStory({
  journey,
  technician,
  shortName,
  specimens,
  contents,
}: {
  journey: Journey
  technician: Person
  shortName: string
  specimens: readonly PlannedSpecimen[]
  /** Only these emulsion contents of the design; all of them without. */
  contents?: readonly string[]
}) {
  const { page, context } = technician
  let typed = 0
  const rowsOf = (test: string) =>
    rowsOfTest(test).filter(({ label }) => contents === undefined || contents.includes(label.split('-')[0]!))
  const rowOf = (test: string, label: string) => rowsOf(test).find((row) => row.label === label)!
  const codeOf = (test: string, label: string) =>
    specimens.find((found) => found.test === test && found.label === label)!.code
  const codesOf = (test: string) => rowsOf(test).map(({ label }) => codeOf(test, label))

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
    intoTheOven: (test: string, step: string, day: Day, time: string) =>
      confirm('In the oven', step, test, at(day, time)),
    async outOfTheOven(test: string, step: string, day: Day, { out, cooled }: { out: string; cooled: string }) {
      await confirm('Out of the oven', step, test, at(day, out))
      await confirm('Cooled', 'Cool down', test, at(day, cooled))
    },
    /** A rack in the order of the labels given, else from the last to the first. */
    async weigh(
      test: string,
      step: string,
      { key, day, time, order }: { key: 'w1' | 'w2'; day: Day; time: string; order?: readonly string[] },
    ) {
      await journey.clockTo(at(day, time))
      await openTask(page, step, shortNames[test]!)
      const places =
        order ??
        rowsOf(test)
          .map(({ label }) => label)
          .toReversed()
      const weights = places.map((label) => ({ code: codeOf(test, label), typed: rowOf(test, label)[key] }))
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
    /** Two acts of the same person on two pages, each at its time: one follows the other for every specimen. */
    async inTurn(
      test: string,
      day: Day,
      one: { step: string; act: string; first: string },
      other: { step: string; act: string; first: string },
      { every, order }: { every: number; order: readonly string[] },
    ) {
      const second = await secondPage()
      const acts = order.flatMap((label, index) => [
        { ...one, page, code: codeOf(test, label), moment: at(day, plus(one.first, every * index)) },
        { ...other, page: second, code: codeOf(test, label), moment: at(day, plus(other.first, every * index)) },
      ])
      const opened = new Set<Page>()
      for (const { moment, step, act, page: place, code } of acts.toSorted((a, b) =>
        a.moment.localeCompare(b.moment),
      )) {
        await journey.clockTo(moment)
        if (!opened.has(place)) await openTask(place, step, act, shortNames[test]!)
        opened.add(place)
        await confirmActs(place, act, [code])
      }
      await second.close()
    },
    /** Each strip is sanded on one page and weighed at once on another. */
    async sandAndWeigh(test: string, day: Day, { first, every }: { first: string; every: number }) {
      const second = await secondPage()
      for (const [index, row] of rowsOf(test).entries()) {
        const code = codeOf(test, row.label)
        await journey.clockTo(at(day, plus(first, every * index)))
        if (index === 0) await openTask(page, 'Run the sand cycles', shortNames[test]!)
        await confirmActs(page, 'Sand poured, wheel started', [code])
        await journey.clockTo(at(day, plus(first, every * index + 6)))
        if (index === 0) await openTask(second, 'Weigh after sanding (W2)', shortNames[test]!)
        await second.getByRole('row').filter({ hasText: code }).first().waitFor()
        await weighRack(second, [{ code, typed: row.w2 }])
        typed += 1
      }
      await second.close()
    },
    async voidSpecimen(code: string, reason: string) {
      await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Bench' }).click()
      await page.getByLabel('Code of a specimen or batch').fill(code)
      await page.keyboard.press('Enter')
      await page.getByRole('button', { name: /^Void / }).click()
      const dialog = page.getByRole('dialog')
      await dialog.getByLabel('What happened').fill(reason)
      await dialog.getByRole('button', { name: /^Void / }).click()
      await dialog.waitFor({ state: 'detached' })
    },
  }
}
