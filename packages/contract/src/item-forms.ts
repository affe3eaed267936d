import { z } from 'zod'

/** What is tested: a cast form, mix in a cup, or mix and samples that are taken apart. */
export const itemForms = ['disc', 'strip', 'biscuit', 'pill', 'cup', 'ring', 'loose'] as const
export const ItemFormSchema = z.enum(itemForms)
export type ItemForm = z.infer<typeof ItemFormSchema>
