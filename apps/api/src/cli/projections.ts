import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { createMaintenanceService } from '#features/bench/maintenance.service'
import { createStandingCheck } from '#features/custody/standing-check.service'
import { exitWith, onDatabase } from './on-database.ts'

const usage = 'Say what to do with the projections: check, or rebuild.'

/**
 * `npm run projections:check` and `projections:rebuild`: what the bench reads fast and who has which item, against the
 * records it is made from.
 * Exit 0 when nothing differs or all is rebuilt, 1 when something differs, 2 when it could not be done.
 */
async function run(what: string | undefined): Promise<number> {
  if (what !== 'check' && what !== 'rebuild') throw new Error(usage)
  return onDatabase(async ({ laboratory }) => {
    const maintenance = createMaintenanceService({ laboratory, methods: builtInMethods })
    const custody = createStandingCheck({ laboratory })
    let same = true
    const labIds = await maintenance.laboratoryIds()
    if (labIds.length === 0) process.stdout.write('No laboratory stands here yet: there is nothing to compare.\n')
    for (const labId of labIds) {
      const differences = await maintenance.checkProjections(labId)
      const standings = await custody.check(labId)
      const count = differences.length + standings.length
      process.stdout.write(
        `Laboratory ${labId}: ${count === 0 ? 'projections are as the records say' : `${count} DIFFER from the records`}.\n`,
      )
      for (const { projection, testId, stored, rebuilt } of differences)
        process.stdout.write(`  ${projection} of test ${testId}: stored ${stored}, by the records ${rebuilt}\n`)
      for (const { code, stored, rebuilt } of standings)
        process.stdout.write(`  custody of ${code}: stored ${stored}, by the records ${rebuilt}\n`)
      if (what === 'check') {
        same &&= count === 0
        continue
      }
      await maintenance.rebuildProjections(labId)
      await custody.rebuild(labId)
      if (count > 0) process.stdout.write('  Rebuilt from the records.\n')
    }
    return same ? 0 : 1
  })
}

exitWith(run(process.argv[2]), 'The projections could not be compared.')
