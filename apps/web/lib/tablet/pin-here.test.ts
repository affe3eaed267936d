import { expect, test } from 'vitest'
import { forgetPin, judgePin, rememberPin } from './pin-here.ts'

function storage() {
  const kept = new Map<string, string>()
  return {
    kept,
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
  }
}

test('a PIN that was taken here opens here, for its person alone', async () => {
  const device = storage()
  expect(await judgePin(device, 'ada', '4711')).toBe('unknown')
  await rememberPin(device, 'ada', '4711')
  expect(await judgePin(device, 'ada', '4711')).toBe('right')
  expect(await judgePin(device, 'ada', '4712')).toBe('wrong')
  expect(await judgePin(device, 'bram', '4711')).toBe('unknown')
  expect([...device.kept.values()].join()).not.toContain('4711')
})

test('five wrong ones end it, a right one in between begins anew', async () => {
  const device = storage()
  await rememberPin(device, 'ada', '4711')
  for (let at = 0; at < 4; at += 1) expect(await judgePin(device, 'ada', '0000')).toBe('wrong')
  expect(await judgePin(device, 'ada', '4711')).toBe('right')
  for (let at = 0; at < 5; at += 1) expect(await judgePin(device, 'ada', '0000')).toBe('wrong')
  expect(await judgePin(device, 'ada', '4711')).toBe('unknown')
})

test('what is forgotten or broken judges nothing', async () => {
  const device = storage()
  await rememberPin(device, 'ada', '4711')
  forgetPin(device, 'ada')
  expect(await judgePin(device, 'ada', '4711')).toBe('unknown')
  device.setItem('curebook-pin-ada', '{"salt":1}')
  expect(await judgePin(device, 'ada', '4711')).toBe('unknown')
  device.setItem('curebook-pin-ada', 'nonsense')
  expect(await judgePin(device, 'ada', '4711')).toBe('unknown')
})

test('it opens no longer than a session lasts', async () => {
  const device = storage()
  await rememberPin(device, 'ada', '4711', 0)
  expect(await judgePin(device, 'ada', '4711', 12 * 3_600_000)).toBe('right')
  expect(await judgePin(device, 'ada', '4711', 12 * 3_600_000 + 1)).toBe('unknown')
  expect(device.kept.size).toBe(0)
})
