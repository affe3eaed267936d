import { expect, test } from 'vitest'
import { parseTabletSettings, usualSettings, type TabletSettings } from './tablet-settings.ts'

test('what was kept is read again as it was', () => {
  const kept: TabletSettings = {
    ...{ sound: false, vibration: false, warnings: { first: 10, last: 2 }, hand: 'left' },
    ...{ storeSent: true, speech: true, inOrder: true },
  }
  expect(parseTabletSettings(JSON.stringify(kept))).toEqual(kept)
})

test.each([null, '', '{', 'null', '[]', '"left"', '7'])('kept as %j it is all as usual', (stored) => {
  expect(parseTabletSettings(stored)).toEqual(usualSettings)
})

test('nothing stores, speaks or goes on by itself unless it was set so', () => {
  for (const stored of ['{}', '{"storeSent":"yes","speech":1,"inOrder":null}'])
    expect(parseTabletSettings(stored)).toMatchObject({ storeSent: false, speech: false, inOrder: false })
})

test('one broken part leaves the others alone', () => {
  expect(parseTabletSettings('{"sound":"no","vibration":false,"hand":"both","warnings":7}')).toEqual({
    ...usualSettings,
    vibration: false,
  })
})

test.each([
  { first: 5, last: 5 },
  { first: 2, last: 3 },
  { first: 4, last: 1 },
  { first: '10', last: 1 },
  { first: 10 },
])('warnings kept as %j would not be two: as usual', (warnings) => {
  expect(parseTabletSettings(JSON.stringify({ warnings })).warnings).toEqual({ first: 5, last: 1 })
})
