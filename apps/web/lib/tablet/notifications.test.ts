import { afterEach, expect, test, vi } from 'vitest'
import { notificationState, showNotification } from './notifications.ts'

type Scope = Parameters<typeof notificationState>[0]
const scope = (permission: string) => ({ Notification: { permission } }) as unknown as Scope

afterEach(() => vi.unstubAllGlobals())

test.each(['granted', 'denied', 'default'])('a browser that says %s is told as that', (permission) => {
  expect(notificationState(scope(permission))).toBe(permission)
})

test('without notifications, or on an address where they are none, there are none', () => {
  expect(notificationState({})).toBe('missing')
  vi.stubGlobal('isSecureContext', false)
  expect(notificationState(scope('granted'))).toBe('missing')
})

class Shown {
  static permission = 'granted'
  static titles: string[] = []
  constructor(title: string) {
    Shown.titles.push(title)
  }
}
const worker = (showNotification: (title: string, options: NotificationOptions) => Promise<void>) =>
  vi.stubGlobal('navigator', { serviceWorker: { getRegistration: async () => ({ showNotification }) } })

test('nothing is shown unasked, and a browser that refuses it to a page is no error', async () => {
  vi.stubGlobal('navigator', {})
  vi.stubGlobal('Notification', Object.assign(Shown, { permission: 'default', titles: [] }))
  expect(await showNotification('Closes', 'in 5 min', 'window')).toBe(false)
  Shown.permission = 'granted'
  expect(await showNotification('Closes', 'in 5 min', 'window')).toBe(true)
  expect(Shown.titles).toEqual(['Closes'])
  vi.stubGlobal('Notification', {
    permission: 'granted',
  })
  expect(await showNotification('Closes', 'in 5 min', 'window')).toBe(false)
})

test('it goes through the worker where there is one, and says where it leads back to', async () => {
  const given: unknown[] = []
  worker(async (title, { body, tag, data }) => void given.push({ title, body, tag, data }))
  vi.stubGlobal('window', { location: { pathname: '/l/north/bench' } })
  vi.stubGlobal('Notification', Object.assign(Shown, { permission: 'granted', titles: [] }))
  expect(await showNotification('Closes', 'in 5 min', 'one')).toBe(true)
  expect(given).toEqual([{ title: 'Closes', body: 'in 5 min', tag: 'one', data: { place: '/l/north/bench' } }])
  expect(Shown.titles).toEqual([])
})

test('a worker that is refused it leaves it to the page', async () => {
  worker(() => Promise.reject(new TypeError('No permission')))
  vi.stubGlobal('window', { location: { pathname: '/l/north/bench' } })
  vi.stubGlobal('Notification', Object.assign(Shown, { permission: 'granted', titles: [] }))
  expect(await showNotification('Closes', 'in 5 min', 'one')).toBe(true)
  expect(Shown.titles).toEqual(['Closes'])
})
