import { describe, expect, it } from 'vitest'
import { AdviceName } from '../../lib/domain/advice-text.ts'
import { adviceUrgency } from '../../lib/domain/advice-urgency.ts'
import { textForFinding, textsForFindings } from '../../lib/domain/finding-advice.ts'
import { FindingCode, type Urgency } from '../../lib/domain/words.ts'

type Told = Parameters<typeof textForFinding>[0]
const finding = (code: FindingCode, urgency: Exclude<Urgency, 'none'>, more: Partial<Told> = {}): Told => ({
  code,
  urgency,
  drain: 'd1',
  nature: 'clinical',
  evidence: [],
  ...more,
})
const evidence = (what: string) => [{ report: 'r', at: '2026-03-02T08:00:00Z', what, value: 1, unit: null }]
const none = () => false

describe('the text for a finding', () => {
  it.each([
    [finding('drain-out', 'at-once'), 'drain-out'],
    [finding('drain-out', 'within-1h'), 'bulb-out'],
    [finding('output-stopped', 'within-1h'), 'not-draining'],
    [finding('output-decline', 'within-24h'), null],
    [finding('bleeding', 'at-once'), 'bleeding-and-faint'],
    [finding('bleeding', 'within-1h'), 'bleeding'],
    [finding('bleeding', 'within-24h'), 'pink-fluid'],
    [finding('infection-signs', 'within-1h', { drain: null }), 'fever'],
    [finding('infection-signs', 'within-24h', { evidence: evidence('skin') }), 'skin'],
    [finding('infection-signs', 'within-24h', { evidence: evidence('appearance') }), 'cloudy-fluid'],
    [finding('severe-pain', 'within-24h', { drain: null }), 'unwell'],
    [finding('output-surge', 'within-1h'), 'high-output'],
    [finding('dressing-overdue', 'within-3d', { nature: 'upkeep' }), 'dressing'],
    [finding('log-missed', 'within-24h', { nature: 'upkeep' }), null],
    [finding('removal-check', 'within-3d'), null],
  ] as const)('%o: %s', (told, name) => {
    expect(textForFinding(told, false)).toBe(name)
  })

  it('never says to drain less of a drain that must keep draining', () => {
    expect(textForFinding(finding('output-surge', 'within-1h'), true)).toBe('large-volume-now')
    expect(textForFinding(finding('output-surge', 'within-24h'), true)).toBe('large-volume')
    expect(textForFinding(finding('output-surge', 'within-24h'), false)).toBe('high-output-today')
  })

  it('has a person act for whatever is at once, of any code', () => {
    for (const code of FindingCode.options) {
      const name = textForFinding(finding(code, 'at-once'), false)
      if (name !== null) expect(AdviceName.options).toContain(name)
    }
    expect(adviceUrgency['drain-out']).toBe('emergency')
  })
})

describe('the texts for all that holds', () => {
  it('are those within the hour, or else of the highest urgency', () => {
    const pressing = [finding('leak', 'within-1h'), finding('blocked-and-infected', 'at-once')]
    const later = [finding('skin-broken', 'within-24h'), finding('unwell', 'within-24h', { drain: null })]
    expect(textsForFindings([...pressing, ...later], none)).toEqual(['leak', 'blocked-and-infected'])
    expect(textsForFindings(later, none)).toEqual(['skin', 'unwell'])
    expect(textsForFindings([], none)).toEqual([])
  })

  it('tell of upkeep only where there is nothing else', () => {
    const dressing = finding('dressing-overdue', 'within-24h', { nature: 'upkeep' })
    expect(textsForFindings([dressing], none)).toEqual(['dressing'])
    expect(textsForFindings([dressing, finding('removal-check', 'within-3d')], none)).toEqual([])
  })
})
