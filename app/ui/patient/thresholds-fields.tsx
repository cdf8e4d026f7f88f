import { thresholdLabels } from '@/lib/domain/labels.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import form from '../parts/form.module.css'
import { numberOf } from '../parts/number-text.ts'
import { TextField } from '../parts/text-field.tsx'

export type ThresholdName = keyof PatientPage['thresholds']
export type ThresholdsDraft = Readonly<Record<ThresholdName, string>>
export const thresholdNames = Object.keys(thresholdLabels) as ThresholdName[]

/** A drain's own thresholds to be changed; empty is the clinic's rule set. */
export const draftOfThresholds = (own: Partial<Record<ThresholdName, number>> = {}): ThresholdsDraft => ({
  declineRatio: String(own.declineRatio ?? ''),
  stoppedHours: String(own.stoppedHours ?? ''),
  feverC: String(own.feverC ?? ''),
  severePain: String(own.severePain ?? ''),
})

/** Only what was changed, so that the others keep who set them, when and why; null takes one back. */
export function changedThresholds(
  draft: ThresholdsDraft,
  before: ThresholdsDraft,
): Partial<Record<ThresholdName, number | null>> {
  return Object.fromEntries(
    thresholdNames
      .filter((name) => draft[name].trim() !== before[name])
      .map((name) => [name, numberOf(draft[name])]),
  )
}

export function thresholdFaults(
  draft: ThresholdsDraft,
  ranges: PatientPage['thresholds'],
): Partial<Record<ThresholdName, string>> {
  return Object.fromEntries(
    thresholdNames.flatMap((name) => {
      const value = numberOf(draft[name])
      const { min, max } = ranges[name]
      return value === null || (value >= min && value <= max) ? [] : [[name, `From ${min} to ${max}.`]]
    }),
  )
}

type Props = {
  draft: ThresholdsDraft
  set: (part: Partial<ThresholdsDraft>) => void
  ranges: PatientPage['thresholds']
  faults: Partial<Record<ThresholdName, string>>
}

/** This drain's own thresholds, each beside what the clinic's rule set says. */
export function ThresholdsFields({ draft, set, ranges, faults }: Props) {
  return (
    <fieldset>
      <legend>
        <b>This drain’s own thresholds</b>, empty: the clinic’s
      </legend>
      <div className={form.row}>
        {thresholdNames.map((name) => (
          <TextField
            key={name}
            label={thresholdLabels[name]}
            hint={`clinic: ${ranges[name].value} (${ranges[name].min} to ${ranges[name].max})`}
            inputMode="decimal"
            size={6}
            value={draft[name]}
            onChange={(value) => set({ [name]: value })}
            fault={faults[name]}
          />
        ))}
      </div>
    </fieldset>
  )
}
