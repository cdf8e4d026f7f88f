'use client'

import { useCallback, useEffect, useState } from 'react'
import { ask } from '@/lib/client/ask.ts'
import { OnCallView } from '@/lib/domain/escalation.ts'
import { urgencyLabels } from '@/lib/domain/labels.ts'
import { dayAndTime, when } from '@/lib/domain/local-time.ts'
import { Cautions } from '../parts/cautions.tsx'
import { Marks } from '../parts/marks.tsx'
import { Findings } from './findings.tsx'
import { Identity } from './identity.tsx'
import css from './on-call.module.css'

type Wish = 'look' | 'have-it' | 'pass-on'

/** The page of somebody on call, woken by a message: what was found, 'I have it', and then whom to call. */
export function OnCallScreen({ id }: { id: string }) {
  const [view, setView] = useState<OnCallView | null>(null)
  const [trouble, setTrouble] = useState<string | null>(null)
  const [asking, setAsking] = useState<Wish | null>('look')

  const wish = useCallback(
    async (what: Wish) => {
      setAsking(what)
      setTrouble(null)
      try {
        const token = window.location.hash.slice(1)
        if (!token) throw new Error('This link is not whole. Open it from the message again.')
        const door = `/api/on-call/${encodeURIComponent(id)}`
        setView(await ask(door, OnCallView, { method: 'POST', body: { token, wish: what } }))
      } catch (error) {
        setTrouble(error instanceof Error ? error.message : 'This did not work; try again.')
      } finally {
        setAsking(null)
      }
    },
    [id],
  )
  useEffect(() => {
    void wish('look')
    const again = () => void wish('look')
    window.addEventListener('hashchange', again)
    return () => window.removeEventListener('hashchange', again)
  }, [wish])

  return (
    <main className={css.sheet}>
      {view ? <Shown view={view} asking={asking} onWish={(what) => void wish(what)} /> : <h1>On call</h1>}
      {!view && asking ? <p role="status">Opening…</p> : null}
      {trouble ? (
        <p role="alert" className={css.trouble}>
          {trouble}
        </p>
      ) : null}
      {trouble || view ? (
        <p>
          <button type="button" data-quiet onClick={() => void wish('look')} aria-disabled={asking !== null}>
            {trouble && !view ? 'Try again' : 'Look again'}
          </button>
        </p>
      ) : null}
      <Cautions />
    </main>
  )
}

type Props = { view: OnCallView; asking: Wish | null; onWish: (wish: Wish) => void }

function Shown({ view, asking, onWish }: Props) {
  const { clinic, state, says, urgency, actBy, about, asOf, identity, findings } = view
  const zone = clinic.timeZone
  const isOpen = state === 'waiting' || state === 'yours'
  return (
    <>
      <header className={css.head}>
        <p className={css.clinic}>
          {clinic.name}
          {clinic.demo ? ' · demo' : ''}
        </p>
        <h1>{findings.length > 0 || identity ? 'A patient cannot wait' : 'On call'}</h1>
        {isOpen ? (
          <p className={css.urgency}>
            <Marks urgency={urgency} large /> {urgencyLabels[urgency]}
            {actBy ? `, by ${when(actBy, Date.parse(asOf), zone)}` : ''}
          </p>
        ) : null}
        <p className={css.quiet}>
          {findings.length === 0 ? `${about}. ` : ''}Since {dayAndTime(view.openedAt, zone)}, clinic time.
          Asked: {view.you}.
        </p>
      </header>
      <p role="status" className={state === 'yours' ? css.yours : css.status}>
        {statusOf(view)}
      </p>
      {identity ? <Identity identity={identity} at={asOf} clinicZone={zone} /> : null}
      {findings.length > 0 ? <Findings findings={findings} asOf={asOf} zone={zone} /> : null}
      {isOpen ? (
        <p className={css.actions}>
          {state === 'waiting' ? (
            <button
              type="button"
              data-main
              aria-disabled={asking !== null}
              onClick={() => !asking && onWish('have-it')}
            >
              {asking === 'have-it' ? 'Saying so' : 'I have it'}
            </button>
          ) : null}
          <button type="button" aria-disabled={asking !== null} onClick={() => !asking && onWish('pass-on')}>
            {asking === 'pass-on' ? 'Passing it on' : 'I cannot: pass it on'}
          </button>
        </p>
      ) : null}
      {state === 'waiting' ? (
        <p className={css.quiet}>
          ‘I have it’ shows who the patient is and whom to call, and ends the messages. It stands in the
          record with your name.
        </p>
      ) : null}
      {says && state === 'others' ? <p>Nothing is asked of you now. Clinic: {clinic.phone}.</p> : null}
    </>
  )
}

function statusOf({ state, says }: OnCallView): string {
  if (state === 'waiting') return 'Nobody has it yet.'
  if (state === 'yours')
    return 'You have it. Call, then sign in and record the call: until then it stands open.'
  return says ?? ''
}
