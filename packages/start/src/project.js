import { mkdirSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { StartFailure } from './failure.js'

/** The project's folder. */
export const root = fileURLToPath(new URL('../../../', import.meta.url)).replace(/\/$/, '')

/** Where this installation keeps its data: `.curebook`, or CUREBOOK_DATA. */
export const dataFolder = resolve(root, process.env.CUREBOOK_DATA || '.curebook')

/** Makes a folder inside the data folder. @param {string[]} names */
export function inDataFolder(...names) {
  const folder = join(dataFolder, ...names)
  try {
    mkdirSync(folder, { recursive: true })
  } catch (error) {
    throw new StartFailure(
      `The folder ${folder} cannot be made: ${/** @type {Error} */ (error).message}. Name another folder in CUREBOOK_DATA.`,
    )
  }
  return folder
}
