import type { ControlledClock } from '#platform/clock'

type Scene = { readonly at: Date; readonly run: () => Promise<unknown> }

/** Acts told in any order, played in the order in which they happened, with the clock put to each. */
export function createStory(clock: ControlledClock) {
  const scenes: Scene[] = []
  return {
    /** At an instant, somebody does something. */
    when(at: Date, run: () => Promise<unknown>): void {
      scenes.push({ at, run })
    },
    async play(): Promise<void> {
      // Equal times keep the order in which they were told.
      for (const { at, run } of [...scenes].sort((a, b) => a.at.getTime() - b.at.getTime())) {
        clock.set(at.toISOString())
        await run()
      }
      scenes.length = 0
    },
  }
}
export type Story = ReturnType<typeof createStory>

export function minutesAfter(at: Date, minutes: number): Date {
  return new Date(at.getTime() + minutes * 60_000)
}
