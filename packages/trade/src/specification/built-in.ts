import { aashtoPp83, aashtoPp87 } from './built-in/aashto.ts'
import { coloradoSlurry, northDakotaMicro } from './built-in/agencies.ts'
import { caltrans373 } from './built-in/caltrans-37-3.ts'
import { en12273 } from './built-in/en-12273.ts'
import { ircMicro, ircSlurry } from './built-in/irc-sp-100.ts'
import { issaA105 } from './built-in/issa-a105.ts'
import { issaA143 } from './built-in/issa-a143.ts'
import { ufcMicro, ufcSlurry } from './built-in/ufc-3-250-03.ts'
import type { BuiltInSpecification } from './specification.ts'

/**
 * Values that a laboratory's specification is copied from, one file a source. Keys of limits are never changed: stored
 * copies refer to them, and so do results entered for them.
 */
export const builtInSpecifications: readonly BuiltInSpecification[] = [
  issaA143,
  issaA105,
  aashtoPp83,
  aashtoPp87,
  en12273,
  ircMicro,
  ircSlurry,
  caltrans373,
  ufcMicro,
  ufcSlurry,
  coloradoSlurry,
  northDakotaMicro,
]
