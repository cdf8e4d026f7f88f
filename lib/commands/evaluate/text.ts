import type { Figure } from './figures.ts'
import { policyInWords } from './nurse.ts'
import { waysInWords } from './simple-ways.ts'

export type Section = { readonly title: string; readonly note: string; readonly figures: readonly Figure[] }

const number = (value: number | null) =>
  value === null
    ? '–'
    : Number.isInteger(value)
      ? String(value)
      : Math.abs(value) < 10
        ? value.toFixed(2)
        : value.toFixed(1)

/** Figures as a person reads them: value, interval, unit, aim. */
export function asText(sections: readonly Section[]): string {
  const width = Math.max(...sections.flatMap(({ figures }) => figures.map(({ name }) => name.length)))
  return sections
    .map(({ title, note, figures }) => {
      const lines = figures.map(({ name, value, low, high, unit, aim, holds }) => {
        const interval = low === null || high === null ? '' : ` (${number(low)} to ${number(high)})`
        const verdict =
          aim === null
            ? ''
            : `   aim ${aim}: ${holds === null ? 'cannot be told' : holds ? 'holds' : 'DOES NOT HOLD'}`
        return `  ${name.padEnd(width)}  ${number(value).padStart(7)}${interval.padEnd(18)} ${unit}${verdict}`
      })
      return [title, note && `  ${note}`, ...lines].filter(Boolean).join('\n')
    })
    .join('\n\n')
}

export const notes = {
  events:
    'sensitivity: a standing flag about the event before the patient’s own call or a visit; heard: a flag or that call, before a visit. Delay from onset to the flag. 95% intervals: Wilson for shares of events, else by resampling patients.',
  findings:
    'Right: the flag opened while a true event of its kind lasted, or within 24 h of help. Harmless leaks, colds and pains of other cause count as false.',
  load: policyInWords,
  safety: '',
  ways: waysInWords,
}
