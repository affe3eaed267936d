import { newId } from './new-id.ts'

/** Who has this browser now: every membership of theirs, or the one that they came back to by PIN. */
export type PersonNews = {
  readonly membershipIds: readonly string[]
  /** The tab that tells: it goes on by itself. */ readonly from: string
}

const CHANNEL = 'curebook-person'
const thisTab = newId()

/** Tells the other tabs of this browser who has it now: they still show, and send, as whoever was here before. */
export function tellPerson(membershipIds: readonly string[]): void {
  const channel = new BroadcastChannel(CHANNEL)
  channel.postMessage({ membershipIds, from: thisTab } satisfies PersonNews)
  channel.close()
}

/** Calls `act` when somebody else has this browser; the same person signing in anew changes nothing. @returns the way to stop */
export function onOtherPerson(membershipId: string, act: () => void): () => void {
  const channel = new BroadcastChannel(CHANNEL)
  channel.onmessage = ({ data }: MessageEvent<PersonNews>) => {
    if (data.from !== thisTab && !data.membershipIds.includes(membershipId)) act()
  }
  return () => channel.close()
}
