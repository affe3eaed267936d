import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { createMaintenanceService } from '#features/bench/maintenance.service'
import { exitWith, onDatabase } from './on-database.ts'

const usage = 'Say what to do with the projections: check, or rebuild.'

/**
 * `npm run projections:check` and `projections:rebuild`: what the bench reads fast, against the records it is made from.
 * Exit 0 when nothing differs or all is rebuilt, 1 when something differs, 2 when it could not be done.
 */
async function run(what: string | undefined): Promise<number> {
  if (what !== 'check' && what !== 'rebuild') throw new Error(usage)
  return onDatabase(async ({ laboratory }) => {
    const maintenance = createMaintenanceService({ laboratory, methods: builtInMethods })
    let same = true
    const labIds = await maintenance.laboratoryIds()
    if (labIds.length === 0) process.stdout.write('No laboratory stands here yet: there is nothing to compare.\n')
    for (const labId of labIds) {
      const differences = await maintenance.checkProjections(labId)
      process.stdout.write(
        `Laboratory ${labId}: ${differences.length === 0 ? 'projections are as the records say' : `${differences.length} DIFFER from the records`}.\n`,
      )
      for (const { projection, testId, stored, rebuilt } of differences)
        process.stdout.write(`  ${projection} of test ${testId}: stored ${stored}, by the records ${rebuilt}\n`)
      if (what === 'check') {
        same &&= differences.length === 0
        continue
      }
      await maintenance.rebuildProjections(labId)
      if (differences.length > 0) process.stdout.write('  Rebuilt from the records.\n')
    }
    return same ? 0 : 1
  })
}

exitWith(run(process.argv[2]), 'The projections could not be compared.')
