import { register } from 'tsx/esm/api'

// A thread does not inherit the loader of its process: it is registered here before the first TypeScript file.
register()
await import('./render-worker.ts')
