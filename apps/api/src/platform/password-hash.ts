import { hash, verify } from '@node-rs/argon2'
import { normalPassword } from './password-rules.ts'

/** argon2id, 19 MiB, two passes, one lane. The algorithm's number is 2; its enum is not readable under isolated modules. */
const options = { algorithm: 2, memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const

export function hashPassword(password: string): Promise<string> {
  return hash(normalPassword(password), options)
}

/** False also for a hash that cannot be read. */
export async function isPassword(password: string, stored: string): Promise<boolean> {
  return verify(stored, normalPassword(password)).catch(() => false)
}
