import { existsSync, statfsSync } from 'node:fs'
import { createServer } from 'node:net'
import { join } from 'node:path'
import { StartFailure } from './failure.js'
import { inDataFolder, root } from './project.js'

const megabyte = 1024 * 1024

/** Throws StartFailure when the disk has not the room that the next steps need. */
export function refuseFullDisk() {
  // Packages and pages take 1.5 GB the first time; afterwards the data wants room to grow.
  needRoom(root, existsSync(join(root, 'node_modules', '.package-lock.json')) ? 20 : 1800)
  needRoom(inDataFolder(), 100)
}

/** @param {string} folder @param {number} needed in megabytes */
function needRoom(folder, needed) {
  const { bavail, bsize } = statfsSync(folder)
  const free = Math.floor((bavail * bsize) / megabyte)
  if (free < needed)
    throw new StartFailure(
      `The disk that holds ${folder} has ${free} MB free, and ${needed} MB are needed. Make room, or keep the data elsewhere (CUREBOOK_DATA).`,
    )
}

/** Where the server will listen, from HOST and PORT. */
export function wantedAddress() {
  const port = process.env.PORT ? Number(process.env.PORT) : 3000
  if (!Number.isInteger(port) || port < 0 || port > 65535)
    throw new StartFailure(`PORT is “${process.env.PORT}”; it has to be a number from 1 to 65535.`)
  return { host: process.env.HOST || '127.0.0.1', port }
}

/** Throws StartFailure when nobody can listen there. @param {{ host: string, port: number }} address */
export async function refuseTakenPort({ host, port }) {
  const code = await new Promise((resolve) => {
    const probe = createServer()
    probe.once('error', (/** @type {{ code?: string }} */ error) => resolve(error.code))
    probe.listen({ host, port }, () => probe.close(() => resolve(undefined)))
  })
  if (code === 'EADDRINUSE')
    throw new StartFailure(`Port ${port} is taken by another program. Choose another: PORT=${port + 1} npm start`)
  if (code === 'EACCES')
    throw new StartFailure(`This user may not listen on port ${port}. Choose one above 1023: PORT=3000 npm start`)
  if (code) throw new StartFailure(`The server cannot listen on ${host}, port ${port} (${code}). Check HOST and PORT.`)
}
