'use client'

import { z } from 'zod'
import { useSend } from '@/lib/client/use-send.ts'
import { dateAndTime } from '@/lib/domain/local-time.ts'
import type { RuleSetInList } from '@/lib/domain/rule-draft.ts'
import { WhyDialog } from '../../parts/why-dialog.tsx'

type Props = {
  target: RuleSetInList
  sets: readonly RuleSetInList[]
  zone: string
  onClose: () => void
  onDone: (says: string) => void
}

/** Going back to a set that was in force: one step, by one person, with the reason. */
export function BackDialog({ target, sets, zone, onClose, onDone }: Props) {
  const { version, id } = target
  const isKept = target.state === 'in-force'
  const waiting = sets.filter(({ state }) => state === 'waiting')
  const sending = useSend('/api/audit/rules/back', z.unknown(), () =>
    onDone(
      isKept
        ? `${version} stays in force.`
        : `${version} is in force again. Every patient is being assessed anew under it.`,
    ),
  )
  return (
    <WhyDialog
      title={isKept ? `Keep ${version}` : `Go back to ${version}`}
      main={isKept ? 'Keep it' : 'Put it in force'}
      sending={sending}
      onWhy={(why) => sending.send({ set: id, why })}
      onClose={onClose}
    >
      {isKept ? null : (
        <p>
          It comes into force at once. It was in force before, so this takes no second person: whoever finds a
          set doing harm must not wait. Every patient is assessed anew; flags that stand keep standing until
          their evidence has ended or somebody has called.
        </p>
      )}
      {waiting.map((one) => (
        <p key={one.id}>
          <b>{one.version}</b>, which was to come into force{' '}
          {one.from === null ? '' : dateAndTime(one.from, zone)}, is taken back.
        </p>
      ))}
    </WhyDialog>
  )
}
