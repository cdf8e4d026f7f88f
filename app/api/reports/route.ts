import { z } from 'zod'
import { bearerKey, noSystem } from '@/lib/http/bearer.ts'
import { callerAddress } from '@/lib/http/caller-address.ts'
import { spend } from '@/lib/http/limits.ts'
import { openRoute } from '@/lib/http/open-route.ts'
import { patientForSystem, receiveReport, systemByKey } from '@/lib/intake/index.ts'

const OfPatient = z.looseObject({ patient: z.string('accepted: a patient id or a record number').max(100) })

/** A report from another system: like any other, with the patient named beside it. */
export const POST = openRoute(async ({ request, body, key }) => {
  const system = await systemByKey(bearerKey(request.headers))
  if (!system) {
    await spend('system-unknown', callerAddress(request.headers))
    throw noSystem()
  }
  await spend('system-reports', system.id)
  const { patient, ...report } = OfPatient.parse(await body())
  const { id: source, clinicId } = system
  const patientId = await patientForSystem(system, patient)
  return receiveReport({ clinicId, patientId, door: 'system', source, by: null, key: key(), body: report })
})
