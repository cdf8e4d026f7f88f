import { FindingCode } from '../../domain/words.ts'
import { contradictions, hazards } from '../../rules/basis.ts'
import { overridable, standardRuleSet } from '../../rules/thresholds.ts'

const cell = (text: string) => text.replaceAll('|', '\\|')
const row = (...cells: string[]) => `| ${cells.map(cell).join(' | ')} |`

/** The text of docs/clinical-basis.md: every threshold, every hazard, every contradiction between sources. */
export function clinicalBasis(): string {
  const thresholds = Object.entries(standardRuleSet.thresholds).map(([name, t]) =>
    row(
      `\`${name}\`${(overridable as readonly string[]).includes(name) ? ' (per drain too)' : ''}`,
      `${t.value} ${t.unit}`.trim(),
      `${t.min}–${t.max}`,
      t.source,
      t.confidence,
    ),
  )
  const rules = FindingCode.options.map((code) =>
    row(`\`${code}\``, hazards[code].hazard, hazards[code].cannotSee),
  )
  const told = contradictions.map((c) => row(c.on, c.sources, c.chosen))
  return `# Clinical basis of rule set ${standardRuleSet.version}

Made by \`npm run clinical-basis\` from lib/rules/thresholds.ts and lib/rules/basis.ts; a test keeps it fresh.

**Decision support, not a diagnosis.** Each finding says what was reported, what it was compared with, and how soon a clinician should look. Local protocol and licensed judgement come first. In an emergency call the local emergency number.

**Adults only.** The thresholds are taken from publications on adults; enrolment refuses a patient under 18.

## What each rule answers, and what it cannot see

| finding | hazard | cannot see |
| --- | --- | --- |
${rules.join('\n')}

## Thresholds

'published': read in the source; 'published, secondary copy': read in a copy that quotes it; 'from memory': named, not read again; 'common practice, no source' and 'local choice': nothing published was found, and the clinic decides. Each value can be set within its range, per rule set; four of them per drain as well, with who, when and why.

| threshold | value | range | source | confidence |
| --- | --- | --- | --- | --- |
${thresholds.join('\n')}

## Where sources contradict one another

| on | what they say | what the rules do, and why |
| --- | --- | --- |
${told.join('\n')}
`
}
