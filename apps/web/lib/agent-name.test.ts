import { expect, test } from 'vitest'
import { agentName } from './agent-name.ts'

test.each([
  [
    'Mozilla/5.0 (Linux; Android 14) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/130.0 Safari/537.36',
    'Chrome, Android',
  ],
  ['Mozilla/5.0 (Windows NT 10.0) AppleWebKit/537.36 Chrome/130.0 Safari/537.36 Edg/130.0', 'Edge, Windows'],
  ['Mozilla/5.0 (iPad; CPU OS 17_0 like Mac OS X) AppleWebKit/605 Version/17 Safari/604', 'Safari, iPad'],
  ['curl/8.5.0', 'curl/8.5.0'],
  ['', undefined],
  [null, undefined],
])('%s is %s', (agent, said) => expect(agentName(agent)).toBe(said))
