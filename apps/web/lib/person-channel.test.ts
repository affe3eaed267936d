import { expect, test, vi } from 'vitest'
import { onOtherPerson, tellPerson } from './person-channel.ts'

test('the tabs of whoever was here before hear that somebody else has the browser; one’s own stay as they are', async () => {
  const heard: string[] = []
  const stops = ['ada', 'max', 'nobody'].map((who) => onOtherPerson(who, () => heard.push(who)))
  tellPerson(['max', 'max elsewhere'])
  tellPerson(['ada'])
  await vi.waitFor(() => expect(heard.toSorted()).toEqual(['ada', 'max', 'nobody', 'nobody']))
  for (const stop of stops) stop()
})
