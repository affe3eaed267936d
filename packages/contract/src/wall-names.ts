import { z } from 'zod'

/** How people stand on wall screens, which visitors read: by name, by initials, or not at all. */
export const WallNamesSchema = z.enum(['full', 'initials', 'none'])
export type WallNames = z.infer<typeof WallNamesSchema>
