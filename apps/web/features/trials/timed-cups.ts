import { cupShares, type TrialCup } from '@curebook/contract/trials'
import type { TimedCup } from '@curebook/trade/design/mix-time-temperatures'

/** The cups whose mix time and temperature are both known; one that had not broken has no mix time of its own. */
export function timedCups(cups: readonly TrialCup[]): readonly TimedCup[] {
  return cups.flatMap(({ number, temperature, mixTime, broke, ...shares }) =>
    temperature === null || mixTime === null || broke === 'not-broken'
      ? []
      : [
          {
            number,
            recipe: cupShares.map((share) => shares[share].value),
            temperature: temperature.value,
            mixTime: mixTime.value,
          },
        ],
  )
}
