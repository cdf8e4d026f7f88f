import { addDays, dateAndTime, fullDate } from './local-time.ts'
import { type Harm, Verdict } from './review.ts'
import { harmLabels, verdictLabels } from './review-page.ts'
import {
  countsText,
  figureText,
  type MinutesContent,
  type MinutesFigure,
  type MinutesVerdicts,
  openText,
  type SignedMinutes,
} from './week-minutes.ts'

/** One entry of the minutes: its text, and what stands under it in second ink. */
export type MinutesLine = { text: string; under: string[]; strong: boolean }
export type MinutesPart = { title: string; lines: MinutesLine[] }

const plain = (text: string, under: string[] = []): MinutesLine => ({ text, under, strong: false })
const strong = (text: string, under: string[] = []): MinutesLine => ({ text, under, strong: true })

/** The sentences that stand above the figures: the week, the cut-off, the rule sets. */
export function contentHead({ week, cutOff, clinic, ruleSet, ruleSets }: MinutesContent): {
  title: string
  lines: string[]
} {
  const zone = clinic.timeZone
  return {
    title: `Minutes of the week of ${fullDate(week)} to ${fullDate(addDays(week, 6))} · ${clinic.name}`,
    lines: [
      `As the data stood at ${dateAndTime(cutOff, zone)}. What was recorded later is in none of these figures.`,
      `In force at the cut-off: rule set ${ruleSet.version}, SHA-256 ${ruleSet.hash}.`,
      ...(ruleSets.length > 1 || ruleSets[0]?.version !== ruleSet.version
        ? [
            `In force during the week: ${ruleSets
              .map(({ version, from }) =>
                from === null ? version : `${version} from ${dateAndTime(from, zone)}`,
              )
              .join('; ')}.`,
          ]
        : []),
    ],
  }
}

/** The figures of the week, each with what it was counted of and what it does not say; the one that was named beforehand first. */
export function figuresPart({ figures, primary }: MinutesContent): MinutesPart {
  const named = figures.filter(({ name }) => name === primary?.figure)
  const others = figures.filter(({ name }) => name !== primary?.figure)
  const line = (figure: MinutesFigure, ...under: string[]) =>
    strong(`${figure.label}: ${figureText(figure)}`, [
      ...under,
      `${countsText(figure)}.`,
      `It does not say: ${figure.doesNotSay}`,
    ])
  const title = 'Figures of the week'
  if (figures.length === 0) return { title, lines: [plain('None.')] }
  return {
    title,
    lines: [
      ...named.map((figure) =>
        line(figure, `Named beforehand by ${primary?.by}; all others are descriptive. Why: ${primary?.why}`),
      ),
      ...(primary === null ? [plain('No figure was named beforehand: all are descriptive.')] : []),
      ...others.map((figure) => line(figure)),
    ],
  }
}

/** The verdicts that hold, by what was flagged; what is still open is said first. */
export function verdictsPart({ verdicts }: MinutesContent): MinutesPart {
  const { lines, settled } = verdicts
  return {
    title: 'Verdicts',
    lines: [
      ...openText(verdicts).map((text) => strong(text)),
      ...(settled > 0 ? [plain(`${settled} were settled by a third reading.`)] : []),
      ...lines.map(({ label, counts }) =>
        plain(
          `${label}: ${Verdict.options
            .filter((verdict) => (counts[verdict] ?? 0) > 0)
            .map((verdict) => `${verdictLabels[verdict].toLowerCase()} ${counts[verdict]}`)
            .join(', ')}`,
        ),
      ),
      plain(`Harm, as the readers saw it: ${harmText(verdicts)}.`),
    ],
  }
}

const harmText = ({ harm }: MinutesVerdicts) =>
  (Object.entries(harm) as [Harm, number][])
    .map(([name, count]) => `${harmLabels[name].toLowerCase()} ${count}`)
    .join(', ')

/** Signed minutes in the order in which they are read. */
export function minutesLines(minutes: SignedMinutes): {
  head: { title: string; lines: string[] }
  parts: MinutesPart[]
  signature: string
} {
  const { content, decisions, unreadWhy, amends, why, signedBy, signedAt } = minutes
  const said = decisions.split('\n').map((line) => line.trim())
  return {
    head: contentHead(content),
    parts: [
      ...(amends === null ? [] : [{ title: 'Amended', lines: [plain(why ?? '')] }]),
      {
        title: 'Decisions',
        lines: decisions === '' ? [plain('None.')] : said.filter(Boolean).map((one) => plain(one)),
      },
      verdictsPart(content),
      ...(unreadWhy === null ? [] : [{ title: 'Signed before all was read', lines: [plain(unreadWhy)] }]),
      figuresPart(content),
    ],
    signature: `Signed by ${signedBy.name}, ${dateAndTime(signedAt, content.clinic.timeZone)}.`,
  }
}
