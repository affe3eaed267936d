// The few names of a browser that code of the pages needs where tests run it without one.

type LockManager = {
  request(name: string, options: { signal?: AbortSignal }, work: () => Promise<unknown>): Promise<unknown>
}

declare const navigator: {
  readonly locks?: LockManager
  readonly storage?: { readonly persist?: () => Promise<boolean> }
}
