'use client'

import { z } from 'zod'
import { useSend } from '@/lib/client/use-send.ts'
import type { Discharge } from '@/lib/domain/discharge.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import { WhyDialog } from '../parts/why-dialog.tsx'

type Props = { discharge: Discharge; onClose: () => void; onDone: (says: string) => void }

/** Takes somebody off the list who is not to be enrolled, for a reason. */
export function SetAsideDialog({ discharge, onClose, onDone }: Props) {
  const sending = useSend(`/api/discharges/${discharge.id}`, z.unknown(), () =>
    onDone(`${discharge.name} is set aside.`),
  )
  return (
    <WhyDialog
      title={`Set aside ${discharge.name}`}
      about={`${fullDate(discharge.birthDate)} · ${discharge.recordNumber}`}
      hint="such as: drain taken out on the ward; followed by another clinic"
      main="Set aside"
      sending={sending}
      onWhy={(why) => sending.send({ why })}
      onClose={onClose}
    />
  )
}
