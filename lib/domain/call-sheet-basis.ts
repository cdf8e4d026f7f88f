import type { Evidence } from './assessment.ts'
import { type Line, tie, unitText } from './call-sheet-line.ts'
import type { Flag } from './flag.ts'
import { confidenceLabels } from './labels.ts'
import { dayAndTime, localDate } from './local-time.ts'
import type { PatientPage } from './patient-page.ts'

/** Pieces of evidence that are listed, the newest first; the reports below have all. */
const MOST = 8

const valueText = ({ value, unit }: Pick<Evidence, 'value' | 'unit'>): string => {
  if (value === null) return ''
  if (typeof value === 'boolean') return value ? ': yes' : ': no'
  return `: ${value}${unit ? ` ${unitText(unit)}` : ''}`
}

/** What a flag rests on: each piece of evidence with its time, the usual output, the threshold with source and confidence. */
export function basisOf({ record, assessment }: PatientPage, { drain, finding }: Flag): Line[] {
  const { evidence, threshold } = finding
  const zone = record.timeZone
  const listed = evidence.toSorted((a, b) => Date.parse(b.at) - Date.parse(a.at)).slice(0, MOST)
  const output = assessment.drains.find((one) => one.drain === drain)
  return [
    ...listed.map((one) => {
      const text = `${dayAndTime(one.at, zone)}, ${one.what}${valueText(one)}`
      return tie(
        text,
        one.report === null
          ? { to: 'day', drain, date: localDate(one.at, zone) }
          : { to: 'report', id: one.report },
      )
    }),
    ...(evidence.length > MOST ? [tie(`and ${evidence.length - MOST} earlier`, { to: 'timeline' })] : []),
    ...(output?.baselineMlPerDay == null
      ? []
      : [
          tie(
            `Usual ${Math.round(output.baselineMlPerDay)} mL/day, ${output.baselineFrom === 'ward' ? 'the ward’s figure' : `from ${output.baselineDays} of its own days`}`,
            { to: 'timeline' },
          ),
        ]),
    [
      `Threshold ${threshold.name}: ${threshold.value}${threshold.unit ? ` ${threshold.unit}` : ''}, ${confidenceLabels[threshold.confidence]}. ${threshold.source}`,
    ],
  ]
}
