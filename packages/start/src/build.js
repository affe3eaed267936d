import { buildPages } from './build-pages.js'
import { step } from './progress.js'

await step('Building the pages', buildPages)
