import { randomUUID } from 'node:crypto'
import { mkdir, open, readdir, rename, rm } from 'node:fs/promises'
import path from 'node:path'
import { recordAccess } from '../access/record.ts'
import { listPage } from '../domain/downtime-list.ts'
import { clockTime, localDate } from '../domain/local-time.ts'
import type { Worklist } from '../domain/worklist.ts'
import { allClinics, type Clinic } from '../store/clinics.ts'
import { read, snapshot, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import type { PaperSize } from './print/paper.ts'
import { worklistPdf } from './print/worklist-pdf.ts'
import { composeWorklist } from './read-worklist.ts'

/** Hours that are kept of each clinic. */
const KEPT = 48
const UNFINISHED = '.unfinished'

/** A clinic whose list could not be written; null: the folder itself, or who the clinics are. */
export type DowntimeFault = { clinicId: string | null; error: unknown }

/**
 * Writes each clinic's worklist into a folder, as a page and as a PDF, each whole or not at all, and removes what is
 * older than the latest 48 hours. One clinic's fault keeps no other from being written.
 */
export async function writeDowntime(folder: string, size: PaperSize, now: Date): Promise<DowntimeFault[]> {
  try {
    await mkdir(folder, { recursive: true, mode: 0o700 })
    const { rows, unreadable } = await read(allClinics)
    const faults: DowntimeFault[] = unreadable.map(({ id, why }) => ({ clinicId: id, error: new Error(why) }))
    for (const clinic of rows)
      await writeClinic(folder, size, clinic, now).catch((error: unknown) =>
        faults.push({ clinicId: clinic.id, error }),
      )
    return faults
  } catch (error) {
    return [{ clinicId: null, error }]
  }
}

async function writeClinic(folder: string, size: PaperSize, clinic: Clinic, now: Date): Promise<void> {
  const list = await snapshot((tx) => composeWorklist(tx, clinic.id, now))
  const begins = `worklist_${slug(clinic.name)}_${slug(clinic.id).slice(0, 8)}_`
  const hour = clockTime(now.getTime(), clinic.timeZone).slice(0, 2)
  const name = `${begins}${localDate(now.getTime(), clinic.timeZone)}_${hour}`
  await noteWritten(clinic.id, list, now)
  await putWhole(path.join(folder, `${name}.html`), listPage(list))
  await putWhole(path.join(folder, `${name}.pdf`), await worklistPdf(list, size))
  await removeOld(folder, begins)
}

const slug = (text: string) =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 60)

/** Beside its place first, flushed to the disk, then moved there: a reader finds the old one or the new one. */
async function putWhole(file: string, content: string | Uint8Array): Promise<void> {
  const making = `${file}.${randomUUID()}${UNFINISHED}`
  try {
    const handle = await open(making, 'wx', 0o600)
    try {
      await handle.writeFile(content)
      await handle.sync()
    } finally {
      await handle.close()
    }
    await rename(making, file)
  } catch (error) {
    await rm(making, { force: true }).catch(() => undefined)
    throw error
  }
}

/** What a name ends in sorts as time; what a process that was killed left behind goes, too. */
async function removeOld(folder: string, begins: string): Promise<void> {
  const own = (await readdir(folder)).filter((name) => name.startsWith(begins))
  const old = ['.html', '.pdf'].flatMap((end) =>
    own
      .filter((name) => name.endsWith(end))
      .toSorted()
      .slice(0, -KEPT),
  )
  for (const name of [...old, ...own.filter((one) => one.endsWith(UNFINISHED))])
    await rm(path.join(folder, name), { force: true })
}

/** A list that leaves the house stands in the access record like any other look at it. */
const noteWritten = (clinicId: string, { rows }: Worklist, now: Date) =>
  write((tx) =>
    recordAccess(tx, {
      clinicId,
      at: stored(now),
      staffId: null,
      actor: 'the server',
      action: 'write-downtime-list',
      patientId: null,
      what: `wrote the list for a downtime: ${rows.map(({ patientId }) => patientId).join(' ')}`,
    }),
  )
