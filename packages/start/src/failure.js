/** Something a person can put right: its message is a whole sentence, shown without a stack. */
export class StartFailure extends Error {
  name = 'StartFailure'
}

/** Says what went wrong; the process then ends with 1. @param {unknown} error */
export function reportFailure(error) {
  const { message, stack, code } = /** @type {Error & { code?: string }} */ (error)
  const full = code === 'ENOSPC' ? 'The disk is full. Make room and start again.' : undefined
  process.stderr.write(`\n${full ?? (error instanceof StartFailure ? message : stack)}\n`)
  process.exitCode = 1
}
