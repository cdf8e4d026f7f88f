import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { paperInks } from '@/app/api/patients/[id]/export/chart.pdf/paper-inks.ts'
import { timelineSvg } from '@/app/api/patients/[id]/export/chart.pdf/timeline-svg.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { wordsOf } from '@/lib/worklist/print/words.ts'
import { flag } from '../fixtures/flag.ts'
import { days, page } from '../fixtures/page.ts'

const drain = (i: number) => ({
  id: `d${i}`,
  kind: 'nephrostomy' as const,
  placedAt: '2024-11-24T16:00:00Z',
  plan: { logEveryHours: 24, dressingEveryHours: 72 },
})
const textsOf = (svg: string) =>
  [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text ?? '')

describe('the timeline on paper', () => {
  it('shows the last 14 days with their numbers, and more days below where there are more', () => {
    const { pictures, leftOut } = timelineSvg(page())
    expect(pictures.map(({ title }) => title)).toEqual([
      '11 Nov 2026 to 24 Nov 2026',
      '15 Oct 2026 to 24 Nov 2026',
    ])
    expect(textsOf(pictures[0]?.svg ?? '')).toEqual(expect.arrayContaining(['395', '380', '210', 'usual']))
    expect(leftOut).toEqual([])
  })

  it('says at least, and everything else, in letters that the fonts of paper have', () => {
    const own = page().assessment.drains[0] as PatientPage['assessment']['drains'][number]
    const drains = [{ ...own, days: days.map((day, i) => (i === 9 ? { ...day, atLeast: true } : day)) }]
    const { pictures, says } = timelineSvg(
      page({ assessment: { ...page().assessment, drains }, flags: [flag()] }),
    )
    const texts = pictures.flatMap(({ svg }) => textsOf(svg))
    expect(texts).toContain('410+')
    for (const text of [...texts, says])
      wordsOf(text, (letter) => expect.unreachable(`no font has ${letter} of “${text}”`))
  })

  it('names what it leaves out of ten drains over two years, what is flagged first', () => {
    const drains = Array.from({ length: 10 }, (_, i) => drain(i))
    const own = page().assessment.drains[0] as PatientPage['assessment']['drains'][number]
    const of = page({
      record: { ...page().record, enrolledAt: '2024-11-24T17:00:00Z', drains },
      labels: Object.fromEntries(
        drains.map(({ id }) => [id, { label: `tube ${id}`, frenchSize: null, lengthMarkCm: null }]),
      ),
      assessment: { ...page().assessment, drains: drains.map(({ id }) => ({ ...own, drain: id, days })) },
      flags: [{ ...flag(), drain: 'd9' }],
    })
    const { pictures, leftOut } = timelineSvg(of)
    const words = textsOf(pictures[0]?.svg ?? '').join(' ')
    expect(words).toContain('Tube d9')
    expect(words).not.toContain('Tube d5')
    expect(leftOut[0]).toMatch(/^Left out: 310 days before 27 Aug 2026, from 21 Oct 2025 on\./)
    expect(leftOut[1]).toMatch(/^Not drawn for want of room: tube d5, tube d6, tube d7, tube d8\./)
  })

  it('is drawn for a patient who has said nothing yet, and whose usual output is not known', () => {
    const own = page().assessment.drains[0] as PatientPage['assessment']['drains'][number]
    for (const drains of [
      [],
      [{ ...own, baselineMlPerDay: null, baselineFrom: 'unknown' as const, days: days.slice(-1) }],
    ])
      expect(timelineSvg(page({ assessment: { ...page().assessment, drains } })).pictures[0]?.svg).toMatch(
        /^<svg/,
      )
  })

  it('is drawn of 10,000 reports', () => {
    const [report] = page().record.reports
    const reports = Array.from({ length: 10_000 }, (_, i) => {
      const at = new Date(Date.parse('2026-11-24T14:00:00Z') - i * 3_456_000).toISOString()
      return { ...report, id: `r${i}`, receivedAt: at, flushes: [{ drain: 'd1', at, volumeMl: 10 }] }
    })
    expect(timelineSvg(page({ record: { ...page().record, reports } })).pictures).toHaveLength(2)
  })

  it('has the colours that the style sheet has for paper', () => {
    const css = readFileSync('app/tokens.css', 'utf8')
    const print = css.slice(css.indexOf('@media print'))
    const value = (name: string) => new RegExp(`--${name}: (#[0-9a-f]{6});`).exec(print)?.[1]
    const names = Object.keys(paperInks).filter((name) => !['face', 'hatch', 'urgency'].includes(name))
    const token = (name: string) => name.replace(/([A-Z]|\d)/g, '-$1').toLowerCase()
    expect(Object.fromEntries(names.map((name) => [name, Reflect.get(paperInks, name)]))).toEqual(
      Object.fromEntries(names.map((name) => [name, value(token(name))])),
    )
    expect(paperInks.urgency).toEqual([1, 2, 3, 4].map((strength) => value(`urgency-${strength}`)))
  })
})
