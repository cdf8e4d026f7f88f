import { describe, expect, it } from 'vitest'
import {
  eventFigures,
  findingFigures,
  loadFigures,
  safetyFigures,
  wayFigures,
} from '../../../lib/commands/evaluate/figures.ts'
import { followPatient } from '../../../lib/commands/evaluate/follow.ts'
import { tasksOf } from '../../../lib/commands/evaluate/panels.ts'
import { asText } from '../../../lib/commands/evaluate/text.ts'
import { standardRuleSet } from '../../../lib/rules/thresholds.ts'

const tallies = tasksOf(30, 500).map((task) => followPatient(task, 30, standardRuleSet))

describe('followPatient', () => {
  it('is the same each time', () => {
    const [task] = tasksOf(1, 500)
    expect(task && followPatient(task, 30, standardRuleSet)).toEqual(tallies[0])
  })

  it('counts what can be counted: days, rows, calls, flags', () => {
    for (const tally of tallies) {
      expect(tally.days).toBeGreaterThan(0)
      expect(tally.days).toBeLessThanOrEqual(30)
      expect(tally.clinicalRowDays).toBeLessThanOrEqual(31)
      expect(Object.values(tally.rowDaysByUrgency).reduce((sum, days) => sum + days, 0)).toBe(
        tally.clinicalRowDays,
      )
      for (const { opened, right } of Object.values(tally.flags)) expect(right).toBeLessThanOrEqual(opened)
      if (tally.task.eventFree) expect(tally.events.filter(({ type }) => type !== 'recovery')).toEqual([])
    }
    expect(tallies.reduce((sum, tally) => sum + tally.calls, 0)).toBeGreaterThan(20)
  })

  it('misses no emergency that a report stated', () => {
    expect(tallies.reduce((sum, tally) => sum + tally.missedAtOnce, 0)).toBe(0)
  })

  it('gives figures with intervals about them, as text and as data', () => {
    const figures = [
      ...safetyFigures(tallies),
      ...eventFigures(tallies),
      ...findingFigures(tallies),
      ...loadFigures(tallies),
      ...wayFigures(tallies),
    ]
    expect(new Set(figures.map(({ name }) => name)).size).toBe(figures.length)
    for (const { value, low, high } of figures) {
      if (value === null || low === null || high === null) continue
      expect(low).toBeLessThanOrEqual(value)
      expect(high).toBeGreaterThanOrEqual(value)
    }
    expect(asText([{ title: 'Figures', note: '', figures }])).toContain('clinical-rows.56%')
  })
})
