'use client'

import { type ReactNode, useState } from 'react'
import type { SheetMatter } from '@/lib/domain/call-sheet.ts'
import { type Line, type SheetTarget, textOf } from '@/lib/domain/call-sheet-line.ts'
import css from './call-sheet.module.css'
import { idOf, jumpTo, useJump } from './call-sheet-jump.ts'

/** A sentence whose numbers lead to where they come from. */
export function LineText({ line }: { line: Line }) {
  let from = 0
  return line.map((piece) => {
    const text = typeof piece === 'string' ? piece : piece.text
    const key = from
    from += text.length
    if (typeof piece === 'string') return <span key={key}>{text}</span>
    return (
      <Jump key={key} to={piece.on}>
        {text}
      </Jump>
    )
  })
}

/** A number, or a few words, that lead to a place on the page. */
function Jump({ to, children }: { to: SheetTarget; children: ReactNode }) {
  return (
    <a
      className={css.number}
      href={`#${idOf(to)}`}
      onClick={(event) => {
        event.preventDefault()
        jumpTo(to)
      }}
    >
      {children}
    </a>
  )
}

/** One thing that is the matter; of a flag, what it rests on is shown to whoever asks. */
export function Matter({ matter: { lead, rest, owed, flag, basis } }: { matter: SheetMatter }) {
  const [open, setOpen] = useState(false)
  useJump((target) => {
    if (target.to === 'basis' && target.flag === flag) setOpen(true)
    return false
  })
  return (
    <>
      <p>
        <b>
          <LineText line={lead} />
        </b>
        <LineText line={rest} />
        {owed ? <span className={css.owed}> Over by now, but nobody has spoken to them.</span> : null}
        {flag !== null && !open ? (
          <span className={css.why}>
            {' '}
            <Jump to={{ to: 'basis', flag }}>why?</Jump>
          </span>
        ) : null}
      </p>
      {flag !== null && open ? (
        <section id={`basis-${flag}`} className={css.basis} aria-label={`What it rests on: ${textOf(lead)}`}>
          <Lines lines={basis} />
          <button type="button" data-quiet onClick={() => setOpen(false)}>
            Hide<span className="for-reader"> what it rests on</span>
          </button>
        </section>
      ) : null}
    </>
  )
}

export function Lines({ lines }: { lines: readonly Line[] }) {
  return lines.map((line) => (
    <p key={textOf(line)}>
      <LineText line={line} />
    </p>
  ))
}

/** Short sentences, one after the other. */
export function Flowing({ lines }: { lines: readonly Line[] }) {
  return lines.length === 0 ? null : (
    <p>
      {lines.map((line, i) => (
        <span key={textOf(line)}>
          {i > 0 ? ' ' : ''}
          <LineText line={line} />
        </span>
      ))}
    </p>
  )
}

/** What is there for whoever asks for it. */
export function More({ text, lines }: { text: string; lines: readonly Line[] }) {
  if (lines.length === 0) return null
  return (
    <details className={css.more}>
      <summary>{text}</summary>
      <Lines lines={lines} />
    </details>
  )
}

/** One of the four parts of the sheet. */
export function Part({ title, children }: { title: string; children: ReactNode }) {
  return (
    <div className={css.part}>
      <dt>{title}</dt>
      <dd>{children}</dd>
    </div>
  )
}
