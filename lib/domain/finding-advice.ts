import type { AdviceName } from './advice-text.ts'
import type { Finding } from './assessment.ts'
import { urgencyRank } from './words.ts'

type Told = Pick<Finding, 'code' | 'urgency' | 'drain' | 'nature' | 'evidence'>

/**
 * The text that fits one finding of the rules; null where a patient can do nothing about it, or where it says
 * no more than that the nurse should look (a log that is due, a slow fall).
 */
export function textForFinding(
  { code, urgency, drain, evidence }: Told,
  isPleural: boolean,
): AdviceName | null {
  const isNow = urgency === 'at-once' || urgency === 'within-1h'
  switch (code) {
    case 'emergency-symptoms':
    case 'blocked-and-infected':
    case 'drain-moved':
    case 'cap-failing':
    case 'leak':
    case 'flush-blocked':
    case 'unwell':
      return code
    case 'drain-out':
      return urgency === 'at-once' ? 'drain-out' : 'bulb-out'
    case 'output-stopped':
    case 'output-decline':
      return isNow ? 'not-draining' : null
    case 'output-surge':
      if (isPleural && evidence.every(({ what }) => what !== 'appearance'))
        return isNow ? 'large-volume-now' : 'large-volume'
      return isNow ? 'high-output' : 'high-output-today'
    case 'bleeding':
      if (urgency === 'at-once') return 'bleeding-and-faint'
      return isNow ? 'bleeding' : 'pink-fluid'
    case 'infection-signs':
      if (drain === null) return 'fever'
      return evidence.some(({ what }) => what === 'skin') ? 'skin' : 'cloudy-fluid'
    case 'severe-pain':
      return isNow ? 'severe-pain' : 'unwell'
    case 'skin-broken':
      return 'skin'
    case 'dressing-overdue':
      return 'dressing'
    case 'flush-retained':
    case 'flush-missed':
    case 'log-missed':
    case 'exchange-due':
    case 'removal-check':
    case 'reading-suspect':
      return null
  }
}

/**
 * The texts for the most urgent of the findings that hold now: all of those within the hour, or, where there is
 * none, those of the highest urgency. Upkeep never crowds out a clinical finding.
 */
export function textsForFindings(
  findings: readonly Told[],
  isPleural: (drain: string) => boolean,
): AdviceName[] {
  const clinical = findings.filter(({ nature }) => nature === 'clinical')
  const told = clinical.length > 0 ? clinical : findings
  const top = Math.max(0, ...told.map(({ urgency }) => urgencyRank[urgency]))
  return told
    .filter(({ urgency }) => urgencyRank[urgency] >= Math.min(top, urgencyRank['within-1h']))
    .flatMap((finding) => textForFinding(finding, finding.drain !== null && isPleural(finding.drain)) ?? [])
}
