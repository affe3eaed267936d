export type KeptAnswer = {
  readonly path: string
  /** What tells that the thing moved on: a step, an act. */ readonly state: string
}
export type KeepOutcome = { readonly there: number; readonly asked: number }

/** Where this browser's worker is. */
export const ADDRESS = '/tablet-worker.js'

/** Whether this browser can hold the bench at this address: it needs https, or the very machine that serves. */
export function canHold(): boolean {
  return 'serviceWorker' in navigator
}

/** The worker that holds the bench on this device; undefined where the browser has or allows none. */
async function worker(): Promise<ServiceWorker | undefined> {
  if (!canHold()) return undefined
  const registration = await navigator.serviceWorker.register(ADDRESS).catch(() => undefined)
  if (registration === undefined) return undefined
  const ready = await navigator.serviceWorker.ready
  return ready.active ?? undefined
}

/** Begins to hold the bench here; whether there is something that can. */
export async function beginToHold(): Promise<boolean> {
  return (await worker()) !== undefined
}

async function tell<Answer>(active: ServiceWorker, message: Readonly<Record<string, unknown>>): Promise<Answer> {
  const { port1, port2 } = new MessageChannel()
  const answer = new Promise<Answer>((resolve) => {
    port1.onmessage = ({ data }: MessageEvent<Answer>) => resolve(data)
  })
  active.postMessage(message, [port2])
  return answer
}

/** Keeps pages and answers on the device while there is a network; says how many of them are there. */
export async function keepOnTablet(
  pages: readonly string[],
  answers: readonly KeptAnswer[],
): Promise<KeepOutcome | undefined> {
  const active = await worker()
  return active && tell<KeepOutcome | undefined>(active, { kind: 'keep', pages, answers })
}

/** Clears what the device holds of a laboratory. Unsent readings are elsewhere and stay for who entered them. */
export async function forgetOnTablet(): Promise<void> {
  if (!canHold()) return
  const registration = await navigator.serviceWorker.getRegistration(ADDRESS).catch(() => undefined)
  if (!registration?.active) return
  await Promise.race([
    tell(registration.active, { kind: 'forget' }),
    new Promise((resolve) => setTimeout(resolve, 2_000)),
  ])
}
