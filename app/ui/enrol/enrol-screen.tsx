'use client'

import { useRouter } from 'next/navigation'
import type { Instant } from '@/lib/domain/instant.ts'
import { keptLinkName } from '../hand-out/use-kept-link.ts'
import { BeforeLeaving } from './before-leaving.tsx'
import type { Start } from './draft.ts'
import { EnrolForm } from './enrol-form.tsx'

type Props = {
  asOf: Instant
  staffId: string
  start: Start
  zones: readonly string[]
  /** Who has just been enrolled, as the address says: a reload comes back to the same list. */
  enrolled: string | null
}

/** Enrolment: the form, then what is still to do before the patient leaves. */
export function EnrolScreen({ enrolled, ...form }: Props) {
  const router = useRouter()
  if (enrolled) return <BeforeLeaving key={enrolled} patientId={enrolled} />
  return (
    <EnrolForm
      key={form.start.discharge?.id ?? 'new'}
      {...form}
      onEnrolled={({ patientId, link }) => {
        // The link is known only now: the list and the hand-out find it in this tab.
        window.sessionStorage.setItem(keptLinkName(patientId), link)
        router.replace(`/patients/new?enrolled=${encodeURIComponent(patientId)}`)
      }}
    />
  )
}
