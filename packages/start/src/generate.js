import { generateClient } from './generate-client.js'
import { step } from './progress.js'

await step('Making the database client', generateClient)
