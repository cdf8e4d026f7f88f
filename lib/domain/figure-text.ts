import type { Figure, FigureGroup, FigureUnit, FigureWeek } from './figures.ts'

/** The numbers of a figure as a person reads them. */
type Amount = Pick<Figure, 'value' | 'low' | 'high' | 'numerator' | 'denominator'>

export const groupLabels: Readonly<Record<FigureGroup, string>> = {
  trust: 'Do the flags deserve trust',
  waiting: 'How long patients waited',
  load: 'What it asks of the team',
  outcome: 'What became of the patients',
}

/** @example percentText(0.3082) // '31%' @example percentText(0.004) // '0.4%' */
export function percentText(share: number): string {
  const percent = share * 100
  return percent > 0 && percent < 1 ? `${percent.toFixed(1)}%` : `${Math.round(percent)}%`
}

/** Hours as short as they stay clear. @example hoursText(1.5) // '1 h 30 min' @example hoursText(50) // '50 h' */
export function hoursText(hours: number): string {
  const minutes = Math.round(hours * 60)
  if (minutes < 60) return `${minutes} min`
  if (minutes >= 600 || minutes % 60 === 0) return `${Math.round(minutes / 60)} h`
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min`
}

/** A whole number, its thousands apart. @example wholeText(12345.6) // '12,346' */
export const wholeText = (value: number): string => String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, ',')

/** A number with as many places as its size bears. @example numberText(0.456) // '0.46' @example numberText(123.4) // '123' */
export const numberText = (value: number): string =>
  value >= 100 ? wholeText(value) : value >= 10 ? value.toFixed(1) : value.toFixed(2)

/** @example ofText(3, 46) // '3 of 46' */
export const ofText = (n: number, d: number): string => `${wholeText(n)} of ${wholeText(d)}`

/** A value in its unit. */
export function unitText(value: number, unit: FigureUnit): string {
  if (unit === 'share') return percentText(value)
  return unit === 'hours' ? hoursText(value) : numberText(value)
}

/** The value alone; null where the counts stand alone. */
export const valueText = ({ value }: Pick<Amount, 'value'>, unit: FigureUnit): string | null =>
  value === null ? null : unitText(value, unit)

/** The ends of the 95% interval. @example intervalText({ low: 0.26, high: 0.37 }, 'share') // '26% to 37%' */
export function intervalText({ low, high }: Pick<Amount, 'low' | 'high'>, unit: FigureUnit): string | null {
  if (low === null && high === null) return null
  if (low === null) return `up to ${unitText(high ?? 0, unit)}`
  return high === null ? `from ${unitText(low, unit)}` : `${unitText(low, unit)} to ${unitText(high, unit)}`
}

/** What was counted, as it was. @example countText({ numerator: 3, denominator: 46 }) // '3 of 46' */
export const countText = ({ numerator, denominator }: Pick<Amount, 'numerator' | 'denominator'>): string =>
  ofText(numerator, denominator)

/** The value of a week beside its counts: empty where the counts stand alone. */
export const weekText = ({ value }: Pick<FigureWeek, 'value'>, unit: FigureUnit): string =>
  value === null ? '' : unitText(value, unit)
