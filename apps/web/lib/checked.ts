/** The outcome of judging a form against the contract's schema, loaded when it is needed. */
export type Checked<Value> =
  { readonly success: true; readonly data: Value } | { readonly success: false; readonly error: unknown }

type Schema<Value> = { readonly safeParse: (input: unknown) => Checked<Value> }

/**
 * Judges what was typed by the contract's own schema, which reaches the browser only now:
 * `await checkForm(() => import('@curebook/contract/people').then((contract) => contract.InviteSchema), input)`.
 */
export async function checkForm<Value>(load: () => Promise<Schema<Value>>, input: unknown): Promise<Checked<Value>> {
  return (await load()).safeParse(input)
}
