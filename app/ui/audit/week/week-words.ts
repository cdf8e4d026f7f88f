import { FEW } from '@/lib/domain/figures.ts'
import type { LocalDate } from '@/lib/domain/instant.ts'
import { addDays, dayMonth, fullDate } from '@/lib/domain/local-time.ts'
import { stratumLabels } from '@/lib/domain/review-page.ts'
import type { Agreement, Share, WeekLine } from '@/lib/domain/week-page.ts'

/** @example weekText('2026-03-02') // '2 Mar to 8 Mar 2026' */
export const weekText = (week: LocalDate): string => `${dayMonth(week)} to ${fullDate(addDays(week, 6))}`

const count = (n: number, one: string, more = `${one}s`) => (n === 1 ? `1 ${one}` : `${n} ${more}`)
export const itemsText = (n: number): string => count(n, 'item')

/** What a week's sample is made of, as a whole. */
export function sharesText(shares: readonly Share[]): string {
  const parts = shares.map(({ stratum, drawn, of }) =>
    drawn === of ? `all ${of} ${stratumLabels[stratum]}` : `${drawn} of ${of} ${stratumLabels[stratum]}`,
  )
  return parts.length === 0 ? '' : `Drawn: ${parts.join('; ')}.`
}

/** How the readings of a week stand. */
export function lineText({ isDrawn, items, read, twice, readTwice, disagreed }: WeekLine): string {
  if (!isDrawn) return 'not opened yet'
  const open = disagreed > 0 ? `; ${disagreed} to settle` : ''
  return `${read} of ${items} read; ${readTwice} of ${twice} read twice${open}`
}

const two = (value: number) => value.toFixed(2)
const percent = (share: number) => `${Math.round(share * 100)}%`

/** How far two blind readings agree, in sentences that say what they do not. */
export function agreementLines({ n, same, kappa, ac1, prevalence }: Agreement): string[] {
  if (n === 0) return ['Nothing has been read twice yet: agreement is not known.']
  const shares = prevalence.filter(({ share }) => share > 0)
  const counted = `${same} of ${n} items that were read twice got the same verdict`
  if (n < FEW) return [`${counted}: too few for kappa.`]
  return [
    `${counted} (${percent(same / n)}).`,
    kappa === null
      ? 'Cohen’s kappa cannot be told: all verdicts are one.'
      : `Cohen’s kappa ${two(kappa.value)} (95% interval by patient ${two(kappa.low)} to ${two(kappa.high)})${ac1 === null ? '' : `; Gwet’s AC1 ${two(ac1)}`}.`,
    `Of all these readings: ${shares.map(({ verdict, share }) => `${percent(share)} ${verdict.replace(/-/g, ' ')}`).join(', ')}. Kappa falls where nearly all verdicts are one, however well readers agree.`,
  ]
}
