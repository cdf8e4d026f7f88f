import { z } from 'zod'

/** What the fluid is collected in, for the picture of its marks. */
export const Vessel = z.enum(['bag', 'bulb', 'bottle', 'cup'], { error: 'accepted: bag, bulb, bottle, cup' })
export type Vessel = z.infer<typeof Vessel>
