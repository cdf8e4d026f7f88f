'use client'

import { z } from 'zod'
import { eventsDoor } from '@/lib/client/outcomes-queries.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { dayAndTime, fullDate } from '@/lib/domain/local-time.ts'
import { outsideEventLabels, type ShownEvent } from '@/lib/domain/outcomes-page.ts'
import { WhyDialog } from '../../parts/why-dialog.tsx'

type Props = { shown: ShownEvent; onClose: () => void; onDone: (says: string) => void }

/** An event no longer counts, for a reason. It stays readable. */
export function WithdrawDialog({ shown, onClose, onDone }: Props) {
  const { event, name, birthDate, recordNumber, timeZone } = shown
  const sending = useSend(`${eventsDoor(shown.patientId)}/${encodeURIComponent(event.id)}`, z.unknown(), () =>
    onDone(
      `${name}: the event is withdrawn.${
        event.kind === 'death' ? ' Follow-up stays ended until two people take them back.' : ''
      }`,
    ),
  )
  return (
    <WhyDialog
      title={`Withdraw: ${outsideEventLabels[event.kind].toLowerCase()}, ${dayAndTime(event.at, timeZone)}`}
      about={`${name} · ${fullDate(birthDate)} · ${recordNumber}`}
      hint={
        event.kind === 'death'
          ? 'The event stays readable and no longer counts. This brings nobody back into follow-up: that takes two people, on the patient’s page.'
          : 'The event stays readable and no longer counts.'
      }
      main="Withdraw"
      sending={sending}
      onWhy={(why) => sending.send({ why })}
      onClose={onClose}
    />
  )
}
