'use client'

import { useMutation, useQueryClient } from '@tanstack/react-query'
import { type ReactNode, useEffect, useState } from 'react'
import { z } from 'zod'
import { ask } from '@/lib/client/ask.ts'
import { newKey } from '@/lib/client/new-key.ts'
import { UNDO_SECONDS } from '@/lib/domain/callback.ts'
import css from './undo-line.module.css'

/** Seconds before the end at which the button goes: a press must still reach the server in time. */
const MARGIN_S = 2

type Props = {
  /** What was recorded, and what is said once it is taken back. */
  says: string
  undone: string
  door: string
  body?: object
  /** Seconds since it was recorded. */
  elapsedS?: number
  /** It is known to have been taken back. */
  isUndone?: boolean
  /** What the line is about, for whoever hides it without seeing it. */
  about: string
  onHide: () => void
  children?: ReactNode
}

/** What was just recorded, and for a minute the way to take it back. */
export function UndoLine({
  says,
  undone,
  door,
  body = {},
  elapsedS = 0,
  isUndone = false,
  about,
  onHide,
  children,
}: Props) {
  const client = useQueryClient()
  const [left, setLeft] = useState(() => Math.floor(UNDO_SECONDS - MARGIN_S - elapsedS))
  useEffect(() => {
    const timer = setInterval(() => setLeft((before) => Math.max(0, before - 1)), 1000)
    return () => clearInterval(timer)
  }, [])
  const undo = useMutation({
    mutationFn: () => ask(door, z.unknown(), { method: 'POST', body, key: newKey() }),
    onSettled: () => client.invalidateQueries(),
  })
  if (undo.isSuccess || isUndone)
    return (
      <p role="status" className={css.line}>
        {undone}
      </p>
    )
  return (
    <div className={css.line}>
      <p role="status">
        {says}
        {undo.error ? ` It could not be taken back: ${undo.error.message}` : ''}
      </p>
      {left > 0 && !undo.error ? (
        <button
          type="button"
          onClick={() => {
            if (!undo.isPending) undo.mutate()
          }}
          aria-disabled={undo.isPending}
        >
          Undo <span aria-hidden="true">({left} s)</span>
        </button>
      ) : null}
      {children}
      <button type="button" data-quiet onClick={onHide}>
        Hide<span className="for-reader"> the line about {about}</span>
      </button>
    </div>
  )
}
