import type { DrainView } from '../series/view.ts'
import type { Telling } from './rule.ts'

export interface SlowDecline {
  tell(): Telling
}

export function slowDecline(_drain: DrainView): SlowDecline | null {
  return null
}
