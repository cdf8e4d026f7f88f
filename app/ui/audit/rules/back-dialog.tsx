'use client'

import { useState } from 'react'
import { z } from 'zod'
import { useSend } from '@/lib/client/use-send.ts'
import type { RuleSetInList } from '@/lib/domain/rule-draft.ts'
import { Dialog } from '../../parts/dialog.tsx'
import form from '../../parts/form.module.css'
import { FormFoot, faultOf } from '../../parts/form-foot.tsx'
import { TextField } from '../../parts/text-field.tsx'
import { momentText } from './words.ts'

type Props = {
  target: RuleSetInList
  sets: readonly RuleSetInList[]
  zone: string
  onClose: () => void
  onDone: (says: string) => void
}

/** Going back to a set that was in force: one step, by one person, with the reason. */
export function BackDialog({ target, sets, zone, onClose, onDone }: Props) {
  const [why, setWhy] = useState('')
  const [isMissing, setMissing] = useState(false)
  const { version, id } = target
  const isKept = target.state === 'in-force'
  const waiting = sets.filter(({ state }) => state === 'waiting')
  const { send, isSending, fault } = useSend('/api/audit/rules/back', z.unknown(), () =>
    onDone(
      isKept
        ? `${version} stays in force.`
        : `${version} is in force again. Every patient is being assessed anew under it.`,
    ),
  )
  return (
    <Dialog title={isKept ? `Keep ${version}` : `Go back to ${version}`} onClose={onClose}>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          setMissing(why.trim() === '')
          if (why.trim() !== '' && !fault?.stored) send({ set: id, why: why.trim() })
        }}
      >
        <div className={form.form}>
          {isKept ? null : (
            <p>
              It comes into force at once. It was in force before, so this takes no second person: whoever
              finds a set doing harm must not wait. Every patient is assessed anew; flags that stand keep
              standing until their evidence has ended or somebody has called.
            </p>
          )}
          {waiting.map((one) => (
            <p key={one.id}>
              <b>{one.version}</b>, which was to come into force{' '}
              {one.from === null ? '' : momentText(one.from, zone)}, is taken back.
            </p>
          ))}
          <TextField
            label="Why"
            size={60}
            maxLength={500}
            value={why}
            onChange={setWhy}
            fault={isMissing ? 'Say why.' : faultOf(fault, 'why')}
          />
        </div>
        <FormFoot
          main={isKept ? 'Keep it' : 'Put it in force'}
          isSending={isSending}
          fault={fault}
          shown={['why']}
          onClose={onClose}
        />
      </form>
    </Dialog>
  )
}
