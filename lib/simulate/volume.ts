import { reading as facts } from './parameters.ts'
import type { Random } from './random.ts'

/** What somebody reads off the vessel: noise of the eye, then the nearest half mark, never below nothing. */
export function readVolume(trueMl: number, markMl: number, random: Random): number {
  const seen = trueMl * (1 + random.normal(0, facts.noiseCv.value))
  const step = markMl / 2
  return Math.max(0, Math.round(seen / step) * step)
}

export type Slip = 'ounces' | 'digit' | 'time'

/** What goes wrong at the keyboard; null mostly. */
export function slipOf(random: Random): Slip | null {
  const chance = random.uniform()
  const { ounces, digitSlip, wrongTime } = facts
  if (chance < ounces.value) return 'ounces'
  if (chance < ounces.value + digitSlip.value) return 'digit'
  return chance < ounces.value + digitSlip.value + wrongTime.value ? 'time' : null
}

/** The volume as typed. The form asks again over 5000 mL, so nothing larger is sent. */
export function typed(volumeMl: number, slip: Slip | null): number {
  if (slip === 'ounces') return Math.round(volumeMl / 29.5735295625)
  if (slip === 'digit') return volumeMl * 10 <= 5000 ? volumeMl * 10 : Math.round(volumeMl / 10)
  return volumeMl
}
