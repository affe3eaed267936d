import { expect, test } from 'vitest'
import { say, spokenLabel, voiceOf, type Voice } from './speech.ts'

test.each([
  ['10-3', '10, 3'],
  ['12–1', '12, 1'],
  ['7KD2', '7KD2'],
  ['trial -2', 'trial -2'],
])('%s is said as “%s”', (label, spoken) => {
  expect(spokenLabel(label)).toBe(spoken)
})

test('the last one takes the place of what is still being said', () => {
  const heard: string[] = []
  const voice: Voice = {
    cancel: () => void heard.push('silence'),
    speak: ({ text, lang }) => void heard.push(`${lang}: ${text}`),
  }
  const make = (text: string) => ({ text, lang: '' }) as SpeechSynthesisUtterance
  say('10, 3, stored, 812.4', voice, make)
  say('10, 4, stored, 773.7', voice, make)
  expect(heard).toEqual(['silence', 'en: 10, 3, stored, 812.4', 'silence', 'en: 10, 4, stored, 773.7'])
})

test('a browser without a voice says nothing', () => {
  expect(voiceOf({})).toBeUndefined()
  say('10, 3', undefined, () => {
    throw new Error('nothing is to be said')
  })
})
