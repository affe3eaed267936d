import { expect, test, vi } from 'vitest'
import { giveSignal, pulses, tones, type Signal, type SignalDevice } from './signal.ts'

const signals = ['found', 'wrong', 'warning'] as const
const on = { sound: true, vibration: true }

/** A device that notes what it was made to do. */
function device({ state = 'running', broken = false } = {}) {
  const heard: number[] = []
  const felt: number[][] = []
  let woken = 0
  const gain = {
    gain: { setValueAtTime: () => undefined, linearRampToValueAtTime: () => undefined },
    connect: () => undefined,
  }
  const audio = {
    state,
    currentTime: 3,
    destination: {},
    resume: () => {
      woken += 1
      return broken ? Promise.reject(new Error('NotAllowedError')) : Promise.resolve()
    },
    createGain: () => gain,
    createOscillator: () => {
      const frequency = { value: 0 }
      return { frequency, connect: () => gain, start: () => heard.push(frequency.value), stop: () => undefined }
    },
  }
  const own: SignalDevice = {
    audio: () => audio as unknown as AudioContext,
    vibrate: (pattern) => felt.push(pattern) > 0,
  }
  return { own, heard, felt, woken: () => woken }
}

test.each(signals)('%s is heard and felt', (signal) => {
  const { own, heard, felt } = device()
  giveSignal(signal, on, own)
  expect(heard).toEqual(tones[signal].map(({ hertz }) => hertz))
  expect(felt).toEqual([pulses[signal]])
})

test('a wrong label sounds and feels otherwise than a right one, and a warning otherwise than both', () => {
  const told = (signal: Signal) => JSON.stringify([tones[signal].map(({ from }) => from), pulses[signal]])
  expect(new Set(signals.map(told)).size).toBe(3)
  expect(new Set(signals.map((signal) => tones[signal][0]?.hertz)).size).toBe(3)
})

test('sound off is silent and still felt; vibration off is still heard', () => {
  const silent = device()
  giveSignal('found', { sound: false, vibration: true }, silent.own)
  expect([silent.heard.length, silent.felt.length]).toEqual([0, 1])
  const still = device()
  giveSignal('found', { sound: true, vibration: false }, still.own)
  expect([still.heard.length, still.felt.length]).toEqual([2, 0])
})

test('a page that slept is woken and then heard; one that may not be woken is silent and no error', async () => {
  const asleep = device({ state: 'suspended' })
  giveSignal('warning', on, asleep.own)
  expect(asleep.heard).toEqual([])
  await vi.waitFor(() => expect(asleep.heard.length).toBe(3))
  const untouched = device({ state: 'suspended', broken: true })
  giveSignal('warning', on, untouched.own)
  await Promise.resolve()
  expect([untouched.woken(), untouched.heard.length, untouched.felt.length]).toEqual([1, 0, 1])
})

test('what could be heard only long after is not', async () => {
  const late = device({ state: 'suspended' })
  const clock = vi.spyOn(performance, 'now').mockReturnValueOnce(0).mockReturnValue(60_000)
  giveSignal('found', on, late.own)
  await vi.waitFor(() => expect(clock).toHaveBeenCalledTimes(2))
  await Promise.resolve()
  clock.mockRestore()
  expect(late.heard).toEqual([])
})

test('a device without sound or vibration goes on', () => {
  expect(() => giveSignal('wrong', on, { audio: () => undefined, vibrate: undefined })).not.toThrow()
  expect(() =>
    giveSignal('wrong', on, {
      audio: () => {
        throw new Error('no way out for sound')
      },
      vibrate: undefined,
    }),
  ).not.toThrow()
})
