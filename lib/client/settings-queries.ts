import { queryOptions } from '@tanstack/react-query'
import { z } from 'zod'
import { AdviceTextsPage } from '../domain/advice-text-page.ts'
import { CallTextsPage } from '../domain/call-text.ts'
import { ClinicSettingsPage } from '../domain/clinic-hours.ts'
import { LinkInList } from '../domain/patient-link.ts'
import { ask } from './ask.ts'
import { patientDoor } from './patient-door.ts'

export const clinicSettingsQuery = queryOptions({
  queryKey: ['clinic-settings'],
  queryFn: ({ signal }) => ask('/api/clinic', ClinicSettingsPage, { signal }),
})

export const adviceTextsQuery = queryOptions({
  queryKey: ['advice-texts'],
  queryFn: ({ signal }) => ask('/api/clinic/texts', AdviceTextsPage, { signal }),
})

export const callTextsQuery = queryOptions({
  queryKey: ['call-texts'],
  queryFn: ({ signal }) => ask('/api/clinic/call-texts', CallTextsPage, { signal }),
})

export const linksQuery = (patientId: string) =>
  queryOptions({
    queryKey: ['patient', patientId, 'links'],
    queryFn: ({ signal }) => ask(`${patientDoor(patientId)}/links`, z.array(LinkInList), { signal }),
  })
