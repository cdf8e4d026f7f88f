'use client'

import { type ReactNode, useId, useLayoutEffect, useRef } from 'react'
import css from './dialog.module.css'

type Props = { title: string; about?: ReactNode; onClose: () => void; wide?: boolean; children: ReactNode }

/** The browser's own modal dialog: it keeps the focus inside, closes on Escape and gives the focus back. */
export function Dialog({ title, about, onClose, wide = false, children }: Props) {
  const ref = useRef<HTMLDialogElement>(null)
  const titleId = useId()
  // Closed before it is taken from the page: only then does the browser give the focus back.
  useLayoutEffect(() => {
    const dialog = ref.current
    if (dialog && !dialog.open) dialog.showModal()
    return () => dialog?.close()
  }, [])
  return (
    <dialog
      ref={ref}
      className={wide ? `${css.dialog} ${css.wide}` : css.dialog}
      aria-labelledby={titleId}
      onCancel={(event) => {
        // Only the dialog's own Escape, not that of a list or a date that is open within it.
        if (event.target !== event.currentTarget) return
        event.preventDefault()
        onClose()
      }}
    >
      <div className={css.head}>
        <h2 id={titleId}>{title}</h2>
        {about ? <p className={css.about}>{about}</p> : null}
      </div>
      {children}
    </dialog>
  )
}
