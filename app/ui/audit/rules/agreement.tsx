'use client'

import { dateAndTime } from '@/lib/domain/local-time.ts'
import type { DraftPage } from '@/lib/domain/rule-draft.ts'
import audit from '../audit.module.css'
import type { OpenDialog } from './draft-dialogs.tsx'
import type { Taker } from './use-draft-step.ts'

type Props = {
  page: DraftPage
  me: string
  taker: Taker
  onOpen: (dialog: OpenDialog) => void
  onChange: () => void
}

/** The next step of a draft, for whoever looks at it. */
export function Agreement({ page, me, taker, onOpen, onChange }: Props) {
  const { state, isStale } = page
  const open = (dialog: OpenDialog) => {
    taker.reset()
    onOpen(dialog)
  }
  return (
    <section aria-labelledby="next" className={audit.panel}>
      <h2 id="next">Next step</h2>
      <p>{nextText(page, me)}</p>
      <p className={audit.tools}>
        {isStale ? null : <MainStep page={page} me={me} taker={taker} open={open} />}
        {isStale ? null : (
          <button type="button" onClick={onChange}>
            Change it
          </button>
        )}
        <button type="button" onClick={() => open('withdraw')}>
          Withdraw it
        </button>
      </p>
      {state === 'written' ? null : <p className={audit.quiet}>A change takes the proposal back.</p>}
    </section>
  )
}

type StepProps = Pick<Props, 'page' | 'me' | 'taker'> & { open: (dialog: OpenDialog) => void }

function MainStep({ page, me, taker, open }: StepProps) {
  const { state, proposedBy, lookAgainFrom, version } = page
  if (state === 'written')
    return (
      <button type="button" data-main onClick={() => open('propose')}>
        Propose it
      </button>
    )
  if (state === 'approved')
    return (
      <button type="button" data-main onClick={() => open('put-in-force')}>
        Put it in force
      </button>
    )
  if (proposedBy?.id !== me)
    return (
      <button
        type="button"
        data-main
        onClick={() => taker.take({ step: 'approve' }, `You have approved ${version}.`)}
      >
        Approve it
      </button>
    )
  if (lookAgainFrom === null) return null
  return (
    <button
      type="button"
      data-main
      onClick={() => taker.take({ step: 'look-again' }, `You have looked at ${version} again.`)}
    >
      I have looked at it again: approve it
    </button>
  )
}

function nextText(
  { state, isStale, proposedBy, others, lookAgainFrom, clinic, base }: DraftPage,
  me: string,
) {
  if (isStale) return `Put it on ${base.version} first, or withdraw it.`
  if (state === 'written')
    return 'Whoever proposes it puts their name to it; a second physician must approve it then.'
  if (state === 'approved') return 'It is approved. It changes nothing before it is put in force.'
  const name = proposedBy?.name ?? ''
  if (lookAgainFrom !== null)
    return `${name} proposed it, and is the only physician here: the second look comes from ${dateAndTime(lookAgainFrom, clinic.timeZone)} on.`
  return proposedBy?.id === me
    ? `You proposed it. Another physician must approve it: ${others.join(', ')}.`
    : `${name} proposed it. With your approval two of you answer for these values.`
}
