import { expect, test } from 'vitest'
import { recipesByTemperature, type TimedCup } from './mix-time-temperatures.ts'

const cup = (number: number, recipe: string, temperature: string, mixTime: string): TimedCup => ({
  number,
  recipe: recipe.split(' '),
  temperature,
  mixTime,
})

test('cups of one recipe stand together from cold to warm, with what a degree more takes away', () => {
  const found = recipesByTemperature([
    cup(3, '12 10 0.2 1.0', '25.1', '172'),
    cup(6, '10 11 0.2 1.0', '25.2', '150'),
    cup(8, '12 10.0 0.20 1', '35.2', '118'),
    cup(9, '12 10 0.3 1.0', '35.1', '141'),
    cup(10, '12 10 0.3 1.0', '25.1', '214'),
  ])
  expect(found.map(({ cups }) => cups.map(({ number }) => number))).toEqual([
    [3, 8],
    [10, 9],
  ])
  // (118 − 172) ÷ 10.1 and (141 − 214) ÷ 10
  expect(found.map(({ secondsForEachDegree }) => Number(secondsForEachDegree).toFixed(3))).toEqual(['-5.347', '-7.300'])
})

test('one temperature says nothing of others', () => {
  expect(recipesByTemperature([cup(1, '12 10 0 1', '25', '100'), cup(2, '12 10 0 1', '25.0', '110')])).toEqual([])
  expect(recipesByTemperature([])).toEqual([])
})
