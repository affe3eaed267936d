import { decimal, type Decimal, plainDigits } from '../quantity/decimal.ts'

/** A trial-mix cup that was timed: its recipe, temperature in °C and mix time in s. */
export type TimedCup = {
  readonly number: number
  /** Emulsion, water, additive and filler, % of dry aggregate. */
  readonly recipe: readonly string[]
  readonly temperature: string
  readonly mixTime: string
}

/** Cups of one recipe from the coldest to the warmest, and how its mix time goes with the temperature. */
export type TimedRecipe = {
  readonly cups: readonly TimedCup[]
  /** Mix time of the warmest cup less that of the coldest, over their temperatures: s for each °C. Full digits. */
  readonly secondsForEachDegree: string
}

/**
 * Recipes that were stirred at two temperatures or more, in the order of their first cup. A recipe is one when all of its
 * shares are the same numbers (10 and 10.0 are). The change for each degree is between what was stirred: it is no rule for
 * other temperatures.
 */
export function recipesByTemperature(cups: readonly TimedCup[]): readonly TimedRecipe[] {
  const groups = new Map<string, TimedCup[]>()
  for (const cup of cups) {
    const key = cup.recipe.map((share) => plainDigits(decimal(share))).join(' ')
    groups.set(key, [...(groups.get(key) ?? []), cup])
  }
  return [...groups.values()].flatMap((group) => {
    const ordered = group.toSorted((one, other) => degrees(one).cmp(degrees(other)) || one.number - other.number)
    const [coldest, warmest] = [ordered[0]!, ordered.at(-1)!]
    const apart = degrees(warmest).minus(degrees(coldest))
    if (apart.isZero()) return []
    const change = decimal(warmest.mixTime).minus(coldest.mixTime).div(apart)
    return [{ cups: ordered, secondsForEachDegree: plainDigits(change) }]
  })
}

function degrees({ temperature }: TimedCup): Decimal {
  return decimal(temperature)
}
