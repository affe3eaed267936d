import { expect, test } from 'vitest'
import { readCodes } from './read-codes.ts'

/** A camera that shows one picture after the other, then is put away. */
async function scan(pictures: readonly (readonly string[] | Error)[], known: readonly string[] = []) {
  const putAway = new AbortController()
  const taken: string[] = []
  let looks = 0
  await readCodes({
    look: async () => {
      const picture = pictures[looks]
      looks += 1
      if (looks >= pictures.length) putAway.abort()
      if (picture instanceof Error) throw picture
      return picture ?? []
    },
    take: async (code) => {
      taken.push(code)
      return known.includes(code)
    },
    wait: async () => {},
    signal: putAway.signal,
  })
  return { taken, looks }
}

test('the first known code is taken, and nothing is looked at after it', async () => {
  expect(await scan([[], ['9XY4'], ['7KD2'], ['7KD2'], []], ['7KD2'])).toEqual({ taken: ['9XY4', '7KD2'], looks: 3 })
})

test('of two in one picture the known one is taken', async () => {
  expect(await scan([['9XY4', ' 7KD2 '], []], ['7KD2'])).toEqual({ taken: ['9XY4', '7KD2'], looks: 1 })
})

test('a code that is not known is told once while it is seen, and again when it comes back', async () => {
  expect((await scan([['9XY4'], ['9XY4'], ['9XY4'], [], ['9XY4'], []])).taken).toEqual(['9XY4', '9XY4'])
})

test('a picture that cannot be read is looked at again', async () => {
  expect((await scan([new Error('not ready'), ['7KD2'], []], ['7KD2'])).taken).toEqual(['7KD2'])
})

test('once the camera is put away nothing is taken any more', async () => {
  expect((await scan([['7KD2']], ['7KD2'])).taken).toEqual([])
})
