'use client'

import { useMutation, useQueryClient } from '@tanstack/react-query'
import Link from 'next/link'
import { useEffect, useState } from 'react'
import { z } from 'zod'
import { ask } from '@/lib/client/ask.ts'
import { newKey } from '@/lib/client/new-key.ts'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { noteRecordedCall, type RecordedCall, useRecordedCall } from '@/lib/client/recorded-call.ts'
import { UNDO_SECONDS } from '@/lib/domain/callback.ts'
import css from './recorded-call.module.css'

/** Seconds before the end at which the button goes: a press must still reach the server in time. */
const MARGIN_S = 2

type Props = {
  /** Only calls of this patient; else of any. */
  patientId?: string
  /** Opens the visits here; else it leads to the patient's page. */
  onVisits?: () => void
}

/** The call that was just recorded: what comes next, and for a minute the way to take it back. */
export function RecordedCallLine({ patientId, onVisits }: Props) {
  const call = useRecordedCall()
  if (!call || (patientId !== undefined && call.patientId !== patientId)) return null
  return <Line key={call.recorded.callback} call={call} onVisits={onVisits} />
}

function Line({ call, onVisits }: { call: RecordedCall; onVisits: (() => void) | undefined }) {
  const { patientId, name, recorded, books } = call
  const client = useQueryClient()
  const [left, setLeft] = useState(UNDO_SECONDS - MARGIN_S)
  useEffect(() => {
    const timer = setInterval(() => setLeft((before) => Math.max(0, before - 1)), 1000)
    return () => clearInterval(timer)
  }, [])
  const undo = useMutation({
    mutationFn: () =>
      ask(`${patientDoor(patientId)}/callbacks/${recorded.callback}/undo`, z.unknown(), {
        method: 'POST',
        body: {},
        key: newKey(),
      }),
    onSettled: () => client.invalidateQueries(),
  })
  if (undo.isSuccess)
    return (
      <p role="status" className={css.line}>
        The call to {name} is taken back: everything stands as before it.
      </p>
    )
  return (
    <div className={css.line}>
      <p role="status">
        The call to {name} is recorded.{recorded.nextTry ? ` Next: ${recorded.nextTry.says}` : ''}
        {undo.error ? ` It could not be taken back: ${undo.error.message}` : ''}
      </p>
      {left > 0 && !undo.error ? (
        <button type="button" onClick={() => undo.mutate()} aria-disabled={undo.isPending}>
          Undo <span aria-hidden="true">({left} s)</span>
        </button>
      ) : null}
      {books && onVisits ? (
        <button type="button" onClick={onVisits}>
          Note the visit
        </button>
      ) : null}
      {books && !onVisits ? (
        <Link href={`/patients/${patientId}`} prefetch={false}>
          Note the visit on the page of {name}
        </Link>
      ) : null}
      <button type="button" data-quiet onClick={() => noteRecordedCall(null)}>
        Hide<span className="for-reader"> the line about the recorded call</span>
      </button>
    </div>
  )
}
