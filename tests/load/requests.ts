import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'

/** Requests under way at the same time. */
export const concurrency = 4

export type LoadRequest = { url: string; method: string; headers: Record<string, string>; body?: string }
/** How many a second, how long each took in ms, and what was answered. */
export type LoadAnswer = { perSecond: number; times: number[]; statuses: Record<string, number> }

/** Sends requests from a process of its own, so many at a time; each lane keeps its order. */
export async function sendAll(lanes: readonly (readonly LoadRequest[])[], concurrency: number): Promise<LoadAnswer> {
  const child = spawn(process.execPath, ['--import', 'tsx', fileURLToPath(import.meta.url)], {
    stdio: ['pipe', 'pipe', 'inherit'],
  })
  child.stdin.end(JSON.stringify({ lanes, concurrency }))
  let printed = ''
  for await (const chunk of child.stdout) printed += String(chunk)
  return JSON.parse(printed) as LoadAnswer
}

async function run(): Promise<void> {
  let given = ''
  for await (const chunk of process.stdin) given += String(chunk)
  const { lanes, concurrency } = JSON.parse(given) as { lanes: LoadRequest[][]; concurrency: number }
  const waiting = [...lanes]
  const statuses: Record<string, number> = {}
  const times: number[] = []
  const worker = async () => {
    for (let lane = waiting.shift(); lane; lane = waiting.shift())
      for (const { url, ...init } of lane) {
        const asked = performance.now()
        const response = await fetch(url, init)
        await response.arrayBuffer()
        times.push(performance.now() - asked)
        statuses[response.status] = (statuses[response.status] ?? 0) + 1
      }
  }
  const start = performance.now()
  await Promise.all(Array.from({ length: concurrency }, worker))
  const perSecond = (times.length / (performance.now() - start)) * 1000
  process.stdout.write(JSON.stringify({ perSecond, times, statuses }))
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await run()
