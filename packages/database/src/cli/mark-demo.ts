import { markDemo } from '../demo-mark.ts'
import { openOwner } from '../open-owner.ts'

/** `mark-demo begun|ended`: the starter's frame around the loading of the demo. */
const state = process.argv[2]
if (state !== 'begun' && state !== 'ended') throw new Error('Say begun or ended.')
const owner = await openOwner()
await markDemo(owner.ownerUrl, state)
