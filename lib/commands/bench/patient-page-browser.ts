import { type Browser, chromium, type Page } from '@playwright/test'
import { now as clock } from '../../clock.ts'
import { StaffMember } from '../../domain/staff.ts'
import { read } from '../../store/index.ts'
import type { Figure } from '../evaluate/figures.ts'
import type { Progress } from '../evaluate/progress.ts'
import { findBrowser } from '../setup/browser.mjs'
import { flags, spread } from './browser.ts'
import { type OwnServer, ownServer } from './own-server.ts'
import { onStore } from './own-store.ts'
import { asOf, patient } from './patient.ts'
import { moved, storePatient } from './patient-page-fill.ts'

const DAYS = 400
const AIM_MS = 1000
const PATIENCE_MS = 60_000

/**
 * How long it takes from the navigation to a patient's page, of 400 days with four reports each, until its first chart
 * is drawn: in a browser that has nothing of the page yet, against a server that is warm.
 */
export async function measureFirstChart(visits: number, progress: Progress): Promise<Figure[]> {
  const executablePath = findBrowser()
  if (!executablePath) {
    console.error('No Chromium was found: the patient’s page is not measured in it.')
    return []
  }
  let patientId = ''
  const server = await ownServer(async (url) => {
    patientId = await onStore(url, fill)
  })
  let browser: Browser | null = null
  try {
    browser = await chromium.launch({ executablePath, args: flags })
    const times: number[] = []
    for (let visit = 0; visit <= visits; visit++) {
      const context = await browser.newContext({ viewport: { width: 1366, height: 768 } })
      const page = await context.newPage()
      await signIn(page, server)
      const time = await firstChart(page, `${server.origin}/patients/${patientId}`)
      // The first visit warms the server.
      if (visit > 0) times.push(time)
      progress.at(visit)
      await context.close()
    }
    progress.end()
    const { value, low, high } = spread(times)
    return [
      {
        ...{ name: 'page-first-chart', value, unit: 'ms', low, high },
        ...{ aim: `< ${AIM_MS}`, holds: value < AIM_MS },
      },
    ]
  } finally {
    await browser?.close()
    await server.stop()
  }
}

/** A patient of the demo clinic whose last report has just come. */
async function fill(): Promise<string> {
  const nurse = await read((tx) => tx.staff.findFirstOrThrow({ where: { role: 'nurse' } }))
  const { id, clinicId, name, email, role } = nurse
  const now = clock()
  const record = moved(patient(1, { days: DAYS, standingDays: 0 }), now.getTime() - Date.parse(asOf))
  return storePatient(StaffMember.parse({ id, clinicId, name, email, role }), record, 'Long (invented)', now)
}

async function signIn(page: Page, server: OwnServer): Promise<void> {
  const { email, password } = server.signIn('nurse')
  const headers = { origin: server.origin }
  const door = `${server.origin}/api/auth/sign-in/email`
  const answer = await page.request.post(door, { data: { email, password }, headers })
  if (!answer.ok()) throw new Error(`nobody could sign in: ${answer.status()}`)
}

/** Milliseconds since the beginning of the navigation, as the browser counts them, when the chart's first frame is drawn. */
async function firstChart(page: Page, url: string): Promise<number> {
  await page.addInitScript({ content: watch })
  await page.goto(url, { timeout: PATIENCE_MS, waitUntil: 'commit' })
  const drawn = await page.waitForFunction(() => document.documentElement?.dataset.firstChart, undefined, {
    timeout: PATIENCE_MS,
  })
  return Number(await drawn.jsonValue())
}

/** Runs in the page before any script of its own. */
const watch = `
  const look = () => {
    const canvas = document.querySelector('[role="img"] canvas')
    if (canvas && canvas.width > 0) requestAnimationFrame(() => {
      document.documentElement.dataset.firstChart = String(performance.now())
    })
    else requestAnimationFrame(look)
  }
  requestAnimationFrame(look)`
