import * as z from 'zod'

const PlacedCup = z.object({
  code: z.string().regex(/^\d{3}$/),
  /** empty: none stands beside it */
  place: z
    .string()
    .regex(/^[1-9]$/, 'One of the places, please.')
    .transform(Number)
    .optional()
    .transform((place) => place ?? null),
})

/**
 * Cups with the places that stand beside them on a sheet: an order is whole, each cup in a place of its own, or it is none.
 * Codes as the answer has them, the one liked best first; null: no place at all.
 */
export const PaperOrder = z.array(PlacedCup).transform((cups, context): readonly string[] | null => {
  if (cups.every(({ place }) => place === null)) return null
  cups.forEach(({ place }, at) => {
    const complain = (message: string) => context.addIssue({ code: 'custom', path: [at, 'place'], message })
    if (place === null) complain('This cup has no place. Give each cup one, or none of them.')
    else if (cups.some((other, before) => before < at && other.place === place))
      complain(`Two cups in place ${place}. Each cup has a place of its own, or none has any.`)
    else if (place > cups.length) complain(`There are ${cups.length} places.`)
  })
  return cups.toSorted((a, b) => (a.place ?? 0) - (b.place ?? 0)).map(({ code }) => code)
})
