import { type Browser, chromium, type Page } from '@playwright/test'
import { now as clock, stopwatch } from '../../clock.ts'
import type { PatientRecord } from '../../domain/record.ts'
import { StaffMember } from '../../domain/staff.ts'
import { enrolWithin } from '../../intake/enrol.ts'
import { addReports, type NewReport } from '../../store/add-report.ts'
import { drainsOf } from '../../store/drains.ts'
import { read, write } from '../../store/index.ts'
import { newId, stored } from '../../store/rows.ts'
import type { Figure } from '../evaluate/figures.ts'
import type { Progress } from '../evaluate/progress.ts'
import { findBrowser } from '../setup/browser.mjs'
import { flags, spread } from './browser.ts'
import { type OwnServer, ownServer } from './own-server.ts'
import { onStore } from './own-store.ts'
import { asOf, patient } from './patient.ts'
import { moved } from './patient-page-fill.ts'

const DAYS = 400
const DRAINS = 3
const AIM_MS = 100
const PATIENCE_MS = 60_000

/**
 * How long the timeline of three drains takes, in the browser, from the choice of all 400 days until they are drawn:
 * React, the option, ECharts on its canvas, and the frame.
 */
export async function measureRedraw(rounds: number, progress: Progress): Promise<Figure[]> {
  const executablePath = findBrowser()
  if (!executablePath) {
    console.error('No Chromium was found: the timeline is not measured.')
    return []
  }
  let patientId = ''
  const server = await ownServer(async (url) => {
    patientId = await onStore(url, fill)
  })
  let browser: Browser | null = null
  try {
    browser = await chromium.launch({ executablePath, args: flags })
    const page = await (await browser.newContext({ viewport: { width: 1366, height: 768 } })).newPage()
    await signIn(page, server)
    await page.goto(`${server.origin}/patients/${patientId}`, { timeout: PATIENCE_MS })
    await page.locator('[role="img"] canvas').waitFor({ timeout: PATIENCE_MS })
    const times: number[] = []
    for (let round = 0; round <= rounds; round++) {
      await timeOf(page, '90')
      const time = await timeOf(page, 'since placement')
      // The first round warms the browser.
      if (round > 0) times.push(time)
      progress.at(round)
    }
    progress.end()
    const { value, low, high } = spread(times)
    return [
      {
        ...{ name: 'timeline-redraw', value, unit: 'ms', low, high },
        ...{ aim: `< ${AIM_MS}`, holds: value < AIM_MS },
      },
    ]
  } finally {
    await browser?.close()
    await server.stop()
  }
}

/** Milliseconds from the choice of a range until its frame is drawn, with the way to the browser and back. */
async function timeOf(page: Page, range: string): Promise<number> {
  const elapsedMs = stopwatch()
  await page.evaluate(async (wanted) => {
    const frame = document.querySelector<HTMLElement>('[role="img"]')
    const button = [...document.querySelectorAll<HTMLButtonElement>('fieldset button')].find(
      ({ textContent }) => textContent === wanted,
    )
    if (!frame || !button) throw new Error('there is no such range')
    const before = frame.dataset.drawn
    button.click()
    do await new Promise(requestAnimationFrame)
    while (frame.dataset.drawn === before)
    // What is asked for in a frame is answered after it has been drawn.
    await new Promise<void>((resolve) => {
      const { port1, port2 } = new MessageChannel()
      port1.onmessage = () => resolve()
      port2.postMessage(null)
    })
  }, range)
  return elapsedMs()
}

async function signIn(page: Page, server: OwnServer): Promise<void> {
  const { email, password } = server.signIn('nurse')
  const headers = { origin: server.origin }
  const door = `${server.origin}/api/auth/sign-in/email`
  const answer = await page.request.post(door, { data: { email, password }, headers })
  if (!answer.ok()) throw new Error(`nobody could sign in: ${answer.status()}`)
}

/** A patient of the demo clinic with three drains, each read four times a day. */
async function fill(): Promise<string> {
  const row = await read((tx) => tx.staff.findFirstOrThrow({ where: { role: 'nurse' } }))
  const { id, clinicId, name, email, role } = row
  const nurse = StaffMember.parse({ id, clinicId, name, email, role })
  const record = moved(patient(1, { days: DAYS, standingDays: 0 }), clock().getTime() - Date.parse(asOf))
  const [drain] = record.drains
  if (!drain) throw new Error('bench: a record without a drain')
  const { enrolledAt, timeZone } = record
  const { kind, placedAt, bagCapacityMl, plan } = drain
  const body = {
    ...{ name: 'Three (invented)', birthDate: '1958-03-12', recordNumber: newId().slice(0, 8) },
    ...{ timeZone, enrolledAt },
    drains: Array.from({ length: DRAINS }, (_, i) => ({
      ...{ label: `kidney ${i + 1}`, kind, placedAt, bagCapacityMl, plan },
    })),
  }
  return write(async (tx) => {
    const { patientId } = await enrolWithin(tx, nurse, body, new Date(enrolledAt))
    const drains = (await drainsOf(tx, patientId, stored(enrolledAt))).rows.map((kept) => kept.id)
    await addReports(tx, reportsOf(record, { clinicId, patientId, drains }))
    return patientId
  })
}

type Own = { clinicId: string; patientId: string; drains: readonly string[] }

/** The record's reports, each of every drain. */
const reportsOf = ({ reports, timeZone }: PatientRecord, { clinicId, patientId, drains }: Own): NewReport[] =>
  reports.map(({ receivedAt: received, readings, flushes, dressings, symptoms }) => {
    const id = newId()
    const receivedAt = stored(received)
    const ofEach = <T extends { drain: string }>(parts: readonly T[] | undefined): T[] =>
      drains.flatMap((drain) => (parts ?? []).map((part) => ({ ...part, drain })))
    return {
      head: {
        ...{ id, clinicId, patientId, receivedAt, timeZone, door: 'import', source: 'bench' },
        ...{ reporter: 'patient', sentBy: null, linkId: null, enteredBy: null, key: id, bodyHash: '' },
        receipt: { receipt: id, report: id, receivedAt, advice: [] } as never,
      },
      says: {
        readings: ofEach(readings),
        flushes: ofEach(flushes),
        dressings: ofEach(dressings),
        symptoms: symptoms ? { ...symptoms, drains: ofEach(symptoms.drains) } : null,
      },
    }
  })
