import { describe, expect, test } from 'vitest'
import { isOwnAddress, landingOf } from './landing.ts'

const membership = (shortName: string, roles: ('manager' | 'technician' | 'client')[]) => ({
  labId: 'l',
  shortName,
  laboratory: 'L',
  membershipId: 'm',
  name: 'N',
  initials: 'N',
  roles,
  clientId: null,
})

describe('after signing in', () => {
  test('each role lands on its own first screen', () => {
    expect(landingOf({ memberships: [membership('tern-hollow', ['technician'])] })).toBe('/l/tern-hollow/bench')
    expect(landingOf({ memberships: [membership('tern-hollow', ['manager'])] })).toBe('/l/tern-hollow/schedule')
    expect(landingOf({ memberships: [membership('tern-hollow', ['client'])] })).toBe('/l/tern-hollow/projects')
  })
  test('a person of two laboratories chooses', () => {
    expect(landingOf({ memberships: [membership('a', ['manager']), membership('b', ['manager'])] })).toBe(
      '/choose-laboratory',
    )
  })
  test('a shared link opens the view it names', () => {
    expect(landingOf({ memberships: [membership('a', ['manager'])] }, '/l/a/designs/7?tab=curves')).toBe(
      '/l/a/designs/7?tab=curves',
    )
  })
  test.each([
    'https://elsewhere.example',
    '//elsewhere.example',
    '/\\elsewhere.example',
    '/l/\\x',
    'javascript:alert(1)',
    '',
    null,
  ])('%s is no address of ours', (address) => {
    expect(isOwnAddress(address)).toBe(false)
  })
})
