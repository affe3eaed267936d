/** The telling ones first: a browser also names those that it descends from, and Android names Linux. */
const browsers = ['Edg', 'Firefox', 'Chrome', 'Safari']
const systems = ['Android', 'iPad', 'iPhone', 'Windows', 'Mac OS X', 'Linux']

/** Browser and system in two words, out of what the browser says of itself. */
export function agentName(agent: string | null): string | undefined {
  if (agent === null || agent === '') return undefined
  const browser = browsers.find((name) => agent.includes(name))?.replace('Edg', 'Edge')
  const system = systems.find((name) => agent.includes(name))
  return browser === undefined && system === undefined
    ? agent.slice(0, 40)
    : [browser, system].filter(Boolean).join(', ')
}
