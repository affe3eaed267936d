import type { FastifyServerOptions } from 'fastify'
import type { Config } from '../config.ts'

/** Structured logs without secrets: no cookie, no password, no query, no token in an address. */
export function loggerOptions(level: Config['logLevel']): FastifyServerOptions['logger'] {
  if (level === 'silent') return false
  return {
    level,
    redact: {
      paths: ['*.password', '*.token', '*.code', '*.cookie', 'headers.cookie', 'headers["set-cookie"]'],
      censor: '[left out]',
    },
  }
}

/** The path alone; what follows `/check` is the secret of a report's public page. */
export function withoutSecrets(url: string): string {
  return url.split('?', 1)[0]!.replace(/(\/check\/)[^/]+/, '$1…')
}
