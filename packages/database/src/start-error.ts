/** Something a person can put right; its message is a whole sentence and is shown without a stack. */
export class StartError extends Error {
  override name = 'StartError'
}
