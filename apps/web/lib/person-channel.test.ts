import { expect, test, vi } from 'vitest'
import { onOtherPerson, tellPerson, type PersonNews } from './person-channel.ts'

test('the tabs of whoever was here before hear that somebody else has the browser; one’s own stay as they are', async () => {
  const heard: string[] = []
  const stops = ['ada', 'max', 'nobody'].map((who) => onOtherPerson(who, () => heard.push(who)))
  const another = new BroadcastChannel('curebook-person')
  // The tab that tells goes on by itself: signing out, it is on its way to another page.
  tellPerson([])
  another.postMessage({ membershipIds: ['max', 'max elsewhere'], from: 'another' } satisfies PersonNews)
  another.postMessage({ membershipIds: ['ada'], from: 'another' } satisfies PersonNews)
  await vi.waitFor(() => expect(heard.toSorted()).toEqual(['ada', 'max', 'nobody', 'nobody']))
  for (const stop of stops) stop()
  another.close()
})

test('what a tab tells reaches the others, and says whose it is', async () => {
  const heard: PersonNews[] = []
  const another = new BroadcastChannel('curebook-person')
  another.onmessage = ({ data }: MessageEvent<PersonNews>) => heard.push(data)
  tellPerson(['max'])
  await vi.waitFor(() => expect(heard).toHaveLength(1))
  expect(heard[0]!.membershipIds).toEqual(['max'])
  expect(heard[0]!.from).not.toBe('')
  another.close()
})
