import { stopwatch } from '../../clock.ts'
import { assess } from '../../rules/assess.ts'
import { standardRuleSet } from '../../rules/thresholds.ts'
import { asOf, patient } from './patient.ts'
import { processorMs } from './processor-time.ts'

export interface PanelTimes {
  readonly patients: number
  /** By the wall: building the records and assessing them. */
  readonly seconds: number
  /** Processor time of the assessing alone. */
  readonly assessSeconds: number
  readonly peakMegabytes: number
}

/** Patients stream through one at a time: built, assessed, dropped. Every tenth has three findings that stand for a week. */
export function runPanel(patients: number, days: number, tell: (done: number) => void): PanelTimes {
  let assessing = 0
  let peak = 0
  const seconds = stopwatch()
  for (let i = 0; i < patients; i++) {
    const record = patient(i + 1, { days, standingDays: i % 10 === 9 ? 7 : 0 })
    const before = processorMs()
    assess(record, standardRuleSet, asOf)
    assessing += processorMs() - before
    if (i % 50 === 0) {
      peak = Math.max(peak, process.memoryUsage.rss())
      tell(i + 1)
    }
  }
  tell(patients)
  return {
    patients,
    seconds: seconds() / 1000,
    assessSeconds: assessing / 1000,
    peakMegabytes: peak / 2 ** 20,
  }
}
