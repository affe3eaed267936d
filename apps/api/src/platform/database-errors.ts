import { AppError } from './problem.ts'

/** SQLSTATE of a failure, whether it came through Prisma or `pg`; undefined for other errors. */
export function sqlStateOf(error: unknown): string | undefined {
  if (typeof error !== 'object' || error === null) return undefined
  const { code, meta, cause } = error as { code?: unknown; meta?: unknown; cause?: unknown }
  if (code === 'P2002') return '23505'
  if (code === 'P2003') return '23503'
  if (code === 'P2034') return '40001'
  const inside = driverErrorOf(meta) ?? driverErrorOf(cause)
  if (inside) return inside
  return typeof code === 'string' && /^[0-9A-Z]{5}$/.test(code) && !/^P2\d{3}$/.test(code) ? code : undefined
}

function driverErrorOf(holder: unknown): string | undefined {
  const text = JSON.stringify(holder, (key, value: unknown) => (key === 'stack' ? undefined : value))
  return text?.match(/"(?:originalCode|code)":"([0-9A-Z]{5})"/)?.[1]
}

/** A row with this key stands already. */
export function isUniqueViolation(error: unknown): boolean {
  return sqlStateOf(error) === '23505'
}

/** Two with one id at the same moment: the second sees the first on its second look. */
export async function twice<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work()
  } catch (error) {
    if (!isUniqueViolation(error)) throw error
    return await work()
  }
}

/** What the database refused, said to people; undefined for what is a defect of ours. */
export function problemOfDatabase(error: unknown): AppError | undefined {
  switch (sqlStateOf(error)) {
    case '23505':
      return new AppError('conflict', 'Another one with the same name or number stands already. Reload to see it.', {
        cause: error,
      })
    case '23503':
      return new AppError(
        'refused-by-rule',
        'Something this refers to does not stand in this laboratory. Reload and choose again.',
        { cause: error },
      )
    case '40001':
    case '40P01':
      return new AppError('conflict', 'Somebody changed the same thing at the same moment. Send it again.', {
        cause: error,
      })
    case 'CB002':
      return new AppError('conflict', 'A correction supersedes the latest entry of the same place. Reload to see it.', {
        cause: error,
      })
    case 'CB004':
      return new AppError('wrong-state', 'An approved revision does not change; a new revision starts from it.', {
        cause: error,
      })
    case 'CB007':
      return new AppError(
        'wrong-state',
        'This instrument was taken back together with the file that it came from: nothing is entered for it any more. Choose another one.',
        { cause: error },
      )
    // Data exceptions: out of range, no date, no text, no value of its type.
    case '22003':
    case '22007':
    case '22008':
    case '22021':
    case '22P02':
      return new AppError(
        'invalid-input',
        'A number, day or time that was sent is none that can be kept: it lies far beyond what is measured here. Nothing was saved; send the right one.',
        { cause: error },
      )
    case '53100':
      return new AppError(
        'not-ready',
        'The disk of the database is full. Nothing was saved; tell whoever runs the server.',
        { cause: error },
      )
    case '57014':
      return new AppError('not-ready', 'The database took too long. Nothing was saved; try again shortly.', {
        cause: error,
      })
    default:
      return isUnreachable(error)
        ? new AppError('not-ready', 'The database does not answer at the moment. Try again shortly.', {
            cause: error,
            headers: { 'retry-after': '5' },
          })
        : undefined
  }
}

/** SQLSTATEs of a server that is full, closing or gone (classes 08 and 57P), and what sockets, pools and Prisma call it. */
const unreachableCodes =
  /^(08...|53300|57P0[1235]|25P03|ECONN\w+|EPIPE|ETIMEDOUT|ENOTFOUND|P1001|P1002|P1008|P1017|P2024|P2028)$/
const unreachableWords =
  /connection terminated|timeout exceeded when trying to connect|connection error and is not queryable|server closed the connection|can't reach database server/i

function isUnreachable(error: unknown): boolean {
  const { code, message } = (error ?? {}) as { code?: unknown; message?: unknown }
  return (
    [sqlStateOf(error), code].some((known) => typeof known === 'string' && unreachableCodes.test(known)) ||
    unreachableWords.test(String(message))
  )
}
