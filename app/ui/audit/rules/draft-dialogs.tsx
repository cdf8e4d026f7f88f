'use client'

import { useState } from 'react'
import { dateAndTime, inputTime, instantOf } from '@/lib/domain/local-time.ts'
import type { DraftPage } from '@/lib/domain/rule-draft.ts'
import { Dialog } from '../../parts/dialog.tsx'
import { Choice, Group } from '../../parts/field.tsx'
import form from '../../parts/form.module.css'
import { FormFoot, faultOf } from '../../parts/form-foot.tsx'
import { TextField } from '../../parts/text-field.tsx'
import { WhyDialog } from '../../parts/why-dialog.tsx'
import type { Taker } from './use-draft-step.ts'

export type OpenDialog = 'propose' | 'put-in-force' | 'withdraw'
type Props = { page: DraftPage; taker: Taker; onClose: () => void }

export function DraftDialog({ open, ...props }: Props & { open: OpenDialog }) {
  if (open === 'propose') return <Propose {...props} />
  return open === 'withdraw' ? <Withdraw {...props} /> : <PutInForce {...props} />
}

function Propose({ page, taker, onClose }: Props) {
  const replay = page.replays.find(({ state, isOfThis }) => state === 'done' && isOfThis)
  const [why, setWhy] = useState('')
  const [isMissing, setMissing] = useState(false)
  const { fault, isSending } = taker
  return (
    <Dialog title={`Propose ${page.version}`} onClose={onClose}>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          const isShort = !replay && why.trim() === ''
          setMissing(isShort)
          if (isShort) return
          const without = replay ? {} : { withoutReplay: why.trim() }
          taker.take({ step: 'propose', ...without }, 'Proposed. It waits for a second person.', onClose)
        }}
      >
        <div className={form.form}>
          {replay ? (
            <p>
              The replay of {replay.from} to {replay.until} goes with it: {replay.gained} flags gained,{' '}
              {replay.lost} lost.
            </p>
          ) : (
            <>
              <p>No replay of these values has ended. Run one on this page, or say why there is none.</p>
              <TextField
                label="Why without a replay"
                size={60}
                maxLength={500}
                value={why}
                onChange={setWhy}
                fault={isMissing ? 'Say why.' : faultOf(fault, 'withoutReplay')}
              />
            </>
          )}
        </div>
        <FormFoot
          main="Propose it"
          isSending={isSending}
          fault={fault}
          shown={['withoutReplay']}
          onClose={onClose}
        />
      </form>
    </Dialog>
  )
}

function Withdraw({ page, taker, onClose }: Props) {
  return (
    <WhyDialog
      title={`Withdraw ${page.version}`}
      main="Withdraw it"
      sending={taker}
      onWhy={(why) => taker.take({ step: 'withdraw', why }, 'Withdrawn. It stays readable.', onClose)}
      onClose={onClose}
    />
  )
}

function PutInForce({ page, taker, onClose }: Props) {
  const zone = page.clinic.timeZone
  const [isLater, setLater] = useState(false)
  const [local, setLocal] = useState(inputTime(page.asOf, zone))
  const [isMissing, setMissing] = useState(false)
  const from = isLater ? instantOf(local, zone) : null
  const { version } = page
  return (
    <Dialog title={`Put ${version} in force`} onClose={onClose}>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          setMissing(isLater && from === null)
          if (isLater && from === null) return
          const says =
            from === null
              ? `${version} is in force. Every patient is being assessed anew under it.`
              : `${version} comes into force ${dateAndTime(from, zone)}.`
          taker.take({ step: 'put-in-force', ...(from === null ? {} : { from }) }, says, onClose)
        }}
      >
        <div className={form.form}>
          <Group legend="From when on">
            <Choice type="radio" name="from" checked={!isLater} onChange={() => setLater(false)}>
              Now
            </Choice>
            <Choice type="radio" name="from" checked={isLater} onChange={() => setLater(true)}>
              From a later moment
            </Choice>
          </Group>
          {isLater ? (
            <TextField
              type="datetime-local"
              label="Moment, clinic time"
              value={local}
              onChange={setLocal}
              fault={isMissing ? 'Write day and time.' : faultOf(taker.fault, 'from')}
            />
          ) : null}
          <p>
            Every patient is assessed anew from then on. Rows may open at that moment: choose one at which
            somebody is there to call.
          </p>
        </div>
        <FormFoot
          main="Put it in force"
          isSending={taker.isSending}
          fault={taker.fault}
          shown={isLater ? ['from'] : []}
          onClose={onClose}
        />
      </form>
    </Dialog>
  )
}
