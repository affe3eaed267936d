/** One line for each step: what it is, then how it ended. In a terminal the seconds count while it lasts. */
const terminal = process.stdout.isTTY === true

/**
 * Begins a line; the returned function ends it, with a word on the outcome or without (then the time is all).
 * @param {string} label "Installing packages"
 * @returns {(outcome?: string) => void}
 */
export function beginStep(label) {
  const began = performance.now()
  process.stdout.write(`${label} …`)
  const timer = terminal ? setInterval(() => process.stdout.write(`\r${label} … ${seconds(began)}`), 1000) : undefined
  timer?.unref()
  return (outcome = '') => {
    clearInterval(timer)
    const line = [seconds(began), outcome].filter(Boolean).join(', ')
    process.stdout.write(terminal ? `\r${label} … ${line}   \n` : ` ${line}\n`)
  }
}

/**
 * Runs a step under its line. `work` may return a word on the outcome.
 * @template T @param {string} label @param {() => Promise<T> | T} work @returns {Promise<T>}
 */
export async function step(label, work) {
  const end = beginStep(label)
  try {
    const outcome = await work()
    end(typeof outcome === 'string' ? outcome : '')
    return outcome
  } catch (error) {
    end('failed')
    throw error
  }
}

/** @param {number} began */
function seconds(began) {
  const elapsed = (performance.now() - began) / 1000
  return elapsed < 9.95 ? `${elapsed.toFixed(1)} s` : `${elapsed.toFixed(0)} s`
}
