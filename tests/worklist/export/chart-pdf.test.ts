import { describe, expect, it } from 'vitest'
import { pictureOf, textsOf } from '../../../e2e/support/pdf.ts'
import type { PatientPage } from '../../../lib/domain/patient-page.ts'
import { chartPdf } from '../../../lib/worklist/export/chart-pdf.ts'
import { flag } from '../../app/fixtures/flag.ts'
import { page } from '../../app/fixtures/page.ts'
import { nurse } from '../../store/clinic.ts'

/** A picture with two words of two scripts. */
const svg = (text: string) =>
  `<svg width="900" height="600" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 900 600"><rect width="900" height="600" fill="#eee"/><text x="20" y="40" style="font-size:14px;font-family:x;">${text}</text></svg>`
const drawn = (of: PatientPage, text = 'Flush &amp; more', size: 'A4' | 'LETTER' = 'A4') =>
  chartPdf(of, nurse, size, () => ({
    pictures: [1, 2].map((i) => ({ svg: svg(text), width: 900, height: 600, title: `Picture ${i}` })),
    says: 'What it shows.',
    leftOut: ['12 days before.'],
  }))
const printed = async (...what: Parameters<typeof drawn>) => textsOf(await drawn(...what))

const note = {
  id: 'n',
  at: '2026-11-20T16:00:00Z',
  by: 'J. Sund (invented)',
  byId: 'j',
  text: 'Asked the ward.',
  undoneAt: null,
  undoneBy: null,
}

const drain = (i: number) => ({
  id: `d${i}`,
  kind: 'nephrostomy' as const,
  placedAt: '2024-11-15T16:00:00Z',
  plan: { logEveryHours: 24, dressingEveryHours: 72, flush: { volumeMl: 10, everyHours: 24 } },
})

describe('the pages for the chart', { timeout: 60_000 }, () => {
  it('hold both pictures, above the foot', async () => {
    const { data, width, height } = await pictureOf(await drawn(page()), 1)
    const isGrey = (x: number, y: number) => data[(y * width + x) * 4] === 0xee
    const rows = Array.from({ length: height }, (_, y) => isGrey(Math.floor(width / 2), y))
    const edges = rows.flatMap((grey, y) => (grey !== (rows[y - 1] ?? false) ? [y] : []))
    expect(edges).toHaveLength(4)
    expect(edges[3]).toBeLessThan(height - 76)
    // Four to six, as they were drawn.
    const columns = Array.from({ length: width }, (_, x) => isGrey(x, (edges[0] as number) + 5))
    const wide = columns.filter(Boolean).length
    expect(((edges[1] as number) - (edges[0] as number)) / wide).toBeCloseTo(600 / 900, 1)
  })

  it('are two, with two identifiers, the cautions, who printed when in which zone, on both', async () => {
    for (const size of ['A4', 'LETTER'] as const) {
      const pages = await printed(page({ flags: [flag()], notes: [note] }), undefined, size)
      expect(pages).toHaveLength(2)
      for (const text of pages) {
        for (const word of [
          'Imre Vasquez-Holm (invented)',
          'Born 12 Mar 1958 · record number 40-1177',
          'Decision support, not a diagnosis.',
          'Printed Tue 24 Nov 2026, 07:34 (America/Denver) by Nora Invented, nurse',
          'of 2',
        ])
          expect(text).toContain(word)
      }
      const [first, second] = pages
      expect(first).toContain(`rule set ${page().assessment.ruleSet}`)
      expect(first).toContain('J. Sund (invented), note: “Asked the ward.”')
      for (const title of ['Situation', 'Findings', 'Drains and orders', 'Calls'])
        expect(first).toContain(title)
      expect(first).toContain(flag().finding.threshold.source)
      expect(first).toContain('Ordered: log every 24 h; dressing every 72 h; flush 10 mL every 24 h')
      expect(second).toContain('Flush & more')
      expect(second).toContain('What it shows.')
      expect(second).toContain('12 days before.')
      expect(second).toContain('Picture 2')
    }
  })

  it('say when a call is to be looked at again', async () => {
    const callbacks = page().callbacks.map((call) => ({ ...call, lookAgainAt: '2026-11-19T20:00:00Z' }))
    const [first] = await printed(page({ callbacks }))
    expect(first).toContain('look again Thu 19 Nov, 13:00')
  })

  it('stay two with ten drains and more calls and flags than there is room for, and say what is left out', async () => {
    const drains = Array.from({ length: 10 }, (_, i) => drain(i))
    const of = page({
      record: { ...page().record, drains },
      flags: Array.from({ length: 60 }, (_, i) => ({ ...flag(), id: `f${i}`, drain: `d${i % 10}` })),
      patient: { ...page().patient, name: 'A very long name '.repeat(12) },
    })
    const pages = await printed(of)
    expect(pages).toHaveLength(2)
    expect(pages[0]).toMatch(/\d+ more left out here/)
    expect(pages[0]).toContain('Calls')
  })

  it('are drawn of 10,000 reports and 200 calls', async () => {
    const [report] = page().record.reports
    const [call] = page().callbacks
    const of = page({
      record: {
        ...page().record,
        reports: Array.from({ length: 10_000 }, (_, i) => ({
          ...report,
          id: `r${i}`,
          receivedAt: report?.receivedAt ?? '',
        })),
      },
      callbacks: Array.from({ length: 200 }, (_, i) => ({
        ...(call as NonNullable<typeof call>),
        id: `c${i}`,
      })),
    })
    const pages = await printed(of)
    expect(pages).toHaveLength(2)
    expect(pages[0]).toMatch(/1\d\d more left out here/)
  })

  it('say that nothing was heard, and never that somebody is well', async () => {
    const of = page({
      flags: [],
      record: { ...page().record, reports: [] },
      assessment: { ...page().assessment, drains: [] },
      callbacks: [],
    })
    const pages = await printed(of)
    expect(pages).toHaveLength(2)
    for (const word of [
      'Nothing flagged',
      'Not heard: no report so far.',
      'no output is known',
      'None recorded.',
    ])
      expect(pages[0]).toContain(word)
  })

  it('draw names of other scripts, in the picture too, and say so where they cannot', async () => {
    for (const name of ['Łucja Żółć', 'Ελένη Ώριμη', 'Юлія Вигадана']) {
      const pages = await printed(page({ patient: { ...page().patient, name } }), `called by ${name}`)
      expect(pages[0]).toContain(name)
      expect(pages[1]?.match(new RegExp(name, 'g'))).toHaveLength(3)
      expect(pages[0]).not.toContain('could not be drawn')
    }
    const pages = await printed(page({ patient: { ...page().patient, name: '山田花子' } }), '山')
    expect(pages[0]).toContain('4 letters of other scripts could not be drawn here')
    expect(pages[0]).toContain('40-1177')
  })
})
