import type { Client } from '@curebook/contract/projects'

export function toClient({ id, name, contact, address }: Client): Client {
  return { id, name, contact, address }
}
