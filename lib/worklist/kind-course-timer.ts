import { now as clock } from '../clock.ts'
import { localDate, localParts } from '../domain/local-time.ts'
import { allClinics, type Clinic } from '../store/clinics.ts'
import { read } from '../store/index.ts'
import { courseComputedAt } from '../store/kind-courses.ts'
import { computeKindCourses } from './kind-course.ts'

/** Between two looks whether a clinic's night has come. */
const EVERY_MS = 3_600_000
/** The clinic's hour from which on: few people work, and yesterday's last reports are in. */
const FROM_HOUR = 3

const KEY = Symbol.for('outflow.kind.courses')
const shared = globalThis as typeof globalThis & {
  [KEY]?: { handle: NodeJS.Timeout | null; running: boolean }
}

type OnError = (error: unknown, clinicId: string | null) => void

/** Works out the usual courses of each clinic once a night, until what it returns is called. */
export function startKindCourses(onError: OnError): () => void {
  shared[KEY] ??= { handle: null, running: false }
  const own = shared[KEY]
  const stop = () => {
    if (own.handle) clearInterval(own.handle)
    own.handle = null
  }
  if (own.handle) return stop
  const look = async () => {
    if (own.running) return
    own.running = true
    try {
      await computeDue(clock(), onError)
    } catch (error) {
      onError(error, null)
    } finally {
      own.running = false
    }
  }
  own.handle = setInterval(look, EVERY_MS)
  own.handle.unref()
  void look()
  return stop
}

/** Works out the courses of the clinics whose night has come since the last time; gives their ids. */
export async function computeDue(now: Date, onError: OnError): Promise<string[]> {
  const done: string[] = []
  for (const clinic of (await read(allClinics)).rows) {
    if (!(await isDue(clinic, now))) continue
    await computeKindCourses(clinic.id, now, (error) => onError(error, clinic.id))
    done.push(clinic.id)
  }
  return done
}

/** At most once a local day, from the night hour on; at once where it was never done. */
async function isDue({ id, timeZone }: Clinic, now: Date): Promise<boolean> {
  const last = await read((tx) => courseComputedAt(tx, id))
  if (last === null) return true
  const today = localDate(now.getTime(), timeZone)
  return localDate(last, timeZone) < today && localParts(now.getTime(), timeZone).hour >= FROM_HOUR
}
