import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Say } from '../words/catalogue.ts'
import type { Carried } from './draft.ts'
import { sayWhen } from './times.ts'

/** The parts of a corrected report that stay as they were sent, each as one line. */
export function carriedLines(carried: Carried, view: CheckInView, now: Date, say: Say): string[] {
  const about = ({ drain, at }: { drain: string; at: string }) => ({
    label: view.drains.find((one) => one.id === drain)?.label ?? '',
    when: sayWhen(at, now, say),
  })
  const amount = (volumeMl: number | null) =>
    volumeMl === null ? say('output.not-measured') : say('milliliters', { ml: volumeMl })
  return [
    ...(carried.readings ?? []).map((reading) =>
      say('carriedReading', { ...about(reading), amount: amount(reading.volumeMl) }),
    ),
    ...(carried.flushes ?? []).map((flush) => say('carriedFlush', about(flush))),
    ...(carried.dressings ?? []).map((dressing) => say('carriedDressing', about(dressing))),
  ]
}
