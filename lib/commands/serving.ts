import { addressTrouble, baseUrl } from '../access/base-url.ts'
import { authSecret } from '../access/secret.ts'
import { endAllStreams } from '../http/event-stream.ts'
import { errorForLog, log } from '../http/log.ts'
import { startDelivery } from '../notify/delivery-timer.ts'
import { startReminders } from '../notify/reminder-timer.ts'
import { transportsSetUp } from '../notify/set-up.ts'
import { transportsFrom } from '../notify/transport.ts'
import { startDowntime } from '../worklist/downtime-timer.ts'
import { startEscalations } from '../worklist/escalation-timer.ts'
import { startSweep } from '../worklist/index.ts'
import { startKindCourses } from '../worklist/kind-course-timer.ts'
import { startWatchdog } from '../worklist/watchdog.ts'
import { noteHeads } from './note-heads.ts'

/** What runs in the server's process beside the requests: the sweep, the reminders and the delivery of letters. */
export function startServing(): void {
  const trouble = addressTrouble()
  if (trouble) log.warn(trouble)
  for (const signal of ['SIGTERM', 'SIGINT'] as const) process.once(signal, endAllStreams)
  startSweep((error, patientId) =>
    log.error({ patientId, error: errorForLog(error) }, 'the sweep met an error'),
  )
  startReminders((error, patientId) =>
    log.error({ patientId, error: errorForLog(error) }, 'a reminder could not be given'),
  )
  if (process.env.OUTFLOW_WEBHOOK_URL) {
    const { gatewayTrouble } = transportsSetUp()
    if (gatewayTrouble) log.warn(`Text messages go nowhere: ${gatewayTrouble}.`)
  }
  const house = {
    origin: baseUrl().origin,
    onCall: process.env.OUTFLOW_ONCALL_EMAIL ?? null,
    secret: authSecret(),
  }
  startDelivery(house, (error, letterId) =>
    log.error({ letterId, error: errorForLog(error) }, 'a letter could not be sent'),
  )
  startEscalations(house.onCall, (error, escalationId) =>
    log.error({ escalationId, error: errorForLog(error) }, 'an escalation could not go on'),
  )
  startWatchdog(
    house,
    transportsFrom(),
    (troubles) => log.error({ troubles: troubles.map(({ what }) => what) }, 'something has stopped'),
    (error) => log.error({ error: errorForLog(error) }, 'the watchdog met an error'),
  )
  const lists = {
    folder: process.env.OUTFLOW_DOWNTIME_FOLDER || null,
    size: process.env.OUTFLOW_PAPER?.toLowerCase() === 'letter' ? ('LETTER' as const) : ('A4' as const),
  }
  startDowntime(lists, ({ clinicId, error }) =>
    log.error({ clinicId, error: errorForLog(error) }, 'the list for a downtime could not be written'),
  )
  startKindCourses((error, clinicId) =>
    log.error({ clinicId, error: errorForLog(error) }, 'the usual courses could not be worked out'),
  )
  noteHeads().catch((error) =>
    log.error({ error: errorForLog(error) }, 'the heads of the access record could not be noted'),
  )
}
