import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { createMaintenanceService } from '#features/bench/maintenance.service'
import { exitWith, onDatabase } from './on-database.ts'
import { replayText, validationText } from './validation-report.ts'

/**
 * `npm run validate`: all reference cases on this installation, then every stored result of every laboratory computed again.
 * Exit 0 when all agree, 1 on any difference, 2 when it could not be done.
 */
async function run(): Promise<number> {
  return onDatabase(async ({ laboratory, validation }) => {
    const cases = validation.run()
    process.stdout.write(`${validationText(cases)}\n`)
    const maintenance = createMaintenanceService({ laboratory, methods: builtInMethods })
    let agrees = cases.differing === 0
    const labIds = await maintenance.laboratoryIds()
    if (labIds.length === 0)
      process.stdout.write('No laboratory stands here yet, so no stored result is computed again.\n')
    for (const labId of labIds) {
      const replay = await maintenance.replayResults(labId)
      agrees &&= replay.differences.length === 0 && replay.faults.length === 0
      process.stdout.write(`${replayText(labId, replay)}\n`)
    }
    return agrees ? 0 : 1
  })
}

exitWith(run(), 'The validation could not be done.')
