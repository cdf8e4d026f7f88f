import { describe, expect, it } from 'vitest'
import { pagesOf } from '../../../e2e/support/pdf.ts'
import type { HandoverEntry, HandoverSheet } from '../../../lib/domain/handover.ts'
import { handoverPdf } from '../../../lib/worklist/print/handover-pdf.ts'
import { inSight, wordsOf } from '../../../lib/worklist/print/words.ts'

const entry = (i: number, name: string, change: Partial<HandoverEntry> = {}): HandoverEntry => ({
  patientId: `p${i}`,
  name,
  birthDate: '1960-05-17',
  recordNumber: `LF-${i}`,
  phone: '+1 555 0142',
  timeZone: 'America/Denver',
  urgency: 'within-1h',
  actBy: '2026-11-24T14:40:00Z',
  overdue: false,
  part: 'clinical',
  drains: ['left kidney'],
  findings: [
    { code: 'infection-signs', drain: null, says: 'Chills reported Tue 24 Nov, 06:40.', owed: false },
  ],
  lookAgainWhy: null,
  tried: [
    {
      at: '2026-11-24T14:00:00Z',
      by: 'Nora Invented',
      direction: 'we-called',
      outcome: 'no-answer',
      spokenTo: null,
      note: 'rang out',
    },
  ],
  agreed: null,
  due: [{ at: '2026-11-24T14:40:00Z', what: 'act-by' }],
  holder: null,
  needs: true,
  isNew: false,
  accepted: null,
  newsSince: false,
  ...change,
})

const sheet = (entries: HandoverEntry[]): HandoverSheet => ({
  asOf: '2026-11-24T14:30:00Z',
  clinic: { name: 'Larkfield clinic (invented)', timeZone: 'America/Denver', demo: true },
  from: '2026-11-24T02:30:00Z',
  until: '2026-11-25T02:30:00Z',
  handover: {
    id: 'h',
    openedAt: '2026-11-24T14:10:00Z',
    givenBy: { id: 'a', name: 'Nora Invented' },
    givenAt: '2026-11-24T14:20:00Z',
    takenBy: { id: 'b', name: 'Ben Invented' },
    takenAt: '2026-11-24T14:30:00Z',
    note: 'Quiet night.',
  },
  entries,
  coming: [],
  unreadable: [],
})

// Drawing the pages to read them takes seconds.
describe('the handover on paper', { timeout: 60_000 }, () => {
  it('says who gives and takes, two identifiers, what was tried, and the cautions on every page', async () => {
    const many = Array.from({ length: 12 }, (_, i) => entry(i, `Ada Invented ${i}`))
    for (const [size, width] of [
      ['A4', 595],
      ['LETTER', 612],
    ] as const) {
      const pages = await pagesOf(await handoverPdf(sheet(many), size))
      expect(pages.length).toBeGreaterThan(1)
      for (const page of pages) {
        expect(page.width).toBe(width)
        expect(page.text).toContain('Decision support, not a diagnosis.')
        expect(page.text).toContain(`of ${pages.length}`)
      }
      const text = pages.map((page) => page.text).join('\n')
      for (let i = 0; i < many.length; i++) expect(text).toContain(`17 May 1960 · LF-${i} ·`)
      expect(text).toContain('Given by Nora Invented: signed Tue 24 Nov, 07:20')
      expect(text).toContain('Taken by Ben Invented: signed Tue 24 Nov, 07:30')
      expect(text).toContain('07:00 no answer, Nora Invented. “rang out”')
      expect(text).toContain('Nobody has accepted it: it stays with Nora Invented.')
    }
  })

  it('draws names of other scripts, and says so where it cannot', async () => {
    const [page] = await pagesOf(
      await handoverPdf(
        sheet([entry(1, 'Łucja Żółć'), entry(2, 'Ελένη Ώριμη'), entry(3, 'Юлія Вигадана')]),
        'A4',
      ),
    )
    for (const name of ['Łucja Żółć', 'Ελένη Ώριμη', 'Юлія Вигадана']) expect(page?.text).toContain(name)
    expect(page?.text).not.toContain('could not be drawn')
    const [other] = await pagesOf(await handoverPdf(sheet([entry(1, '山田花子')]), 'A4'))
    expect(other?.text).toContain('4 letters of other scripts could not be drawn here')
    expect(other?.text).toContain('LF-1')
  })

  it('sets neighbouring words that are read from the right the other way round', () => {
    const words = wordsOf('Ask ליאת כהן today', () => expect.unreachable())
    expect(inSight(words).map(({ runs }) => runs.map(({ text }) => text).join(''))).toEqual([
      'Ask',
      'כהן',
      'ליאת',
      'today',
    ])
  })
})
