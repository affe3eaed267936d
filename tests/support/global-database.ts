import type { TestProject } from 'vitest/node'
import { startTestCluster, type TestCluster } from './test-cluster.ts'

declare module 'vitest' {
  export interface ProvidedContext {
    cluster: TestCluster
  }
}

type Shared = { users: number; started: ReturnType<typeof startTestCluster> }
const key = Symbol.for('curebook test cluster')
const holder = globalThis as { [key]?: Shared }

/** Before the first file of a project: one cluster for all projects of this process, gone when the last has ended. */
export default async function setup(project: TestProject) {
  const shared = (holder[key] ??= { users: 0, started: startTestCluster() })
  shared.users += 1
  const { cluster, stop } = await shared.started
  project.provide('cluster', cluster)
  return async () => {
    shared.users -= 1
    if (shared.users > 0) return
    delete holder[key]
    await stop()
  }
}
