import { StartError } from '../start-error.ts'

/** Runs a command's work; what a person can put right is said in one sentence, everything else with its stack. */
export async function runCommand(work: () => Promise<void>): Promise<void> {
  try {
    await work()
  } catch (error) {
    process.stderr.write(`${error instanceof StartError ? error.message : (error as Error).stack}\n`)
    process.exitCode = 1
  }
}
