'use client'

import Link from 'next/link'
import { type ReactNode, useMemo, useRef } from 'react'
import type { CallAnswers } from '@/lib/client/call-answers.ts'
import { callSheet } from '@/lib/domain/call-sheet.ts'
import type { SheetQuestion, SheetRequest } from '@/lib/domain/call-sheet-ask.ts'
import { textOf } from '@/lib/domain/call-sheet-line.ts'
import { notApproved, sheetHead, sheetTaken } from '@/lib/domain/call-sheet-text.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { cautions } from '@/lib/domain/project.ts'
import { may, type StaffMember } from '@/lib/domain/staff.ts'
import css from './call-sheet.module.css'
import { QuestionRow } from './call-sheet-answer.tsx'
import { toldOf } from './call-sheet-answers.ts'
import { LeftLine } from './call-sheet-leave.tsx'
import { Flowing, Lines, Matter, More, Part } from './call-sheet-lines.tsx'
import { SheetTaken } from './call-sheet-taken.tsx'
import { Key } from './key.tsx'
import { useKey } from './use-key.ts'

type Props = {
  page: PatientPage
  now: number
  staff: StaffMember
  answers: CallAnswers
  /** Whether keys of one letter act. */
  keysOn: boolean
  /** Opens the report with what was told filled in; null for whoever may enter none. */
  onReport: (() => void) | null
  children: ReactNode
}

/** What the caller has before them, in the order in which one colleague tells another, down to what to do. */
export function CallSheet({ page, now, staff, answers, keysOn, onReport, children }: Props) {
  // Its sentences name minutes: within one minute the sheet is the same.
  const minute = Math.floor(now / 60_000)
  const sheet = useMemo(() => callSheet(page, minute * 60_000), [page, minute])
  const { situation, background, seen, request } = sheet
  const part = useRef<HTMLElement>(null)
  const ask = asked(request, answers)
  const told = toldOf(answers.list)
  useKey('q', keysOn, () => {
    const rows = [...(part.current?.querySelectorAll<HTMLElement>('li[data-question]') ?? [])]
    const first = rows.find((row) => row.dataset.asked === undefined) ?? rows[0]
    first?.querySelector<HTMLElement>('[data-answer] :is(input, select, summary)')?.focus()
  })
  return (
    <section ref={part} className={css.sheet} aria-labelledby="call-sheet" data-print-sheet tabIndex={-1}>
      <p className={css.printed}>
        <b>{sheetHead(page)}</b>
        <br />
        Printed {sheetTaken(page, staff.name, now)}
      </p>
      <div className={css.head}>
        <h2 id="call-sheet">Call sheet</h2>
        <div className={css.actions}>{children}</div>
      </div>
      <LeftLine patient={page.patient} answers={answers} zone={page.clinic.timeZone} />
      <dl>
        <Part title="Situation">
          {situation.map((matter) => (
            <Matter key={matter.flag ?? textOf(matter.lead)} matter={matter} />
          ))}
        </Part>
        <Part title="Background">
          <Lines lines={background.lines} />
          <Flowing lines={background.person} />
          <More text="Earlier calls and other drains" lines={background.more} />
        </Part>
        <Part title="Assessment">
          <Lines lines={seen.lines} />
          <More text="Of the other drains" lines={seen.more} />
        </Part>
        {ask.first.length > 0 ? (
          <div className={css.ask}>
            <dt>
              Ask <Key letter="Q" on={keysOn} />
              <span className={css.hint}>Enter: next answer. Esc: leave the answers.</span>
            </dt>
            <dd
              onKeyDown={(event) => {
                if (event.key === 'Escape') part.current?.focus()
                if (event.key !== 'Enter' || !(event.target instanceof HTMLInputElement)) return
                if (event.target.type === 'checkbox') return
                event.preventDefault()
                nextAnswer(event.currentTarget, event.target)?.focus()
              }}
            >
              <ul>
                {ask.first.map((question) => (
                  <Question key={question.key} question={question} answers={answers} />
                ))}
              </ul>
              {ask.more.length > 0 ? (
                <details className={css.more}>
                  <summary>{ask.more.length} further questions</summary>
                  <ul>
                    {ask.more.map((question) => (
                      <Question key={question.key} question={question} answers={answers} />
                    ))}
                  </ul>
                </details>
              ) : null}
              {told.length > 0 ? (
                <div className={css.told}>
                  <p>
                    Told, and in no report yet: <b>{told.join('; ')}</b>.
                  </p>
                  {onReport ? (
                    <button type="button" onClick={onReport}>
                      Enter as a report <Key letter="R" on={keysOn} />
                    </button>
                  ) : null}
                </div>
              ) : null}
            </dd>
          </div>
        ) : null}
        {request.advise.length > 0 ? (
          <Part title="Advise">
            <Flowing lines={request.advise} />
          </Part>
        ) : null}
        {request.escalate.length > 0 ? (
          <Part title="Escalate">
            <Flowing lines={request.escalate} />
          </Part>
        ) : null}
      </dl>
      <div className={css.foot}>
        {request.standard.length > 0 ? (
          <p className={css.unapproved}>
            {notApproved}{' '}
            {may(staff.role, 'edit-clinic') ? (
              <Link href="/settings/questions" prefetch={false}>
                Read them
              </Link>
            ) : null}
          </p>
        ) : null}
        <SheetTaken page={page} sheet={sheet} staff={staff} now={now} answers={answers} />
      </div>
      <p className={css.printed}>{cautions}</p>
    </section>
  )
}

function Question({ question, answers }: { question: SheetQuestion; answers: CallAnswers }) {
  return (
    <QuestionRow
      question={question}
      answer={answers.list.find((one) => one.question.key === question.key)}
      set={(part) => answers.set(question, part)}
    />
  )
}

/** The questions of the sheet; what was answered in this call stays in sight when its finding no longer stands. */
function asked({ ask, askMore }: SheetRequest, { list }: CallAnswers) {
  const keys = new Set([...ask, ...askMore].map(({ key }) => key))
  return {
    first: [...ask, ...list.map(({ question }) => question).filter(({ key }) => !keys.has(key))],
    more: askMore,
  }
}

function nextAnswer(place: HTMLElement, from: HTMLElement): HTMLElement | null {
  const all = [...place.querySelectorAll<HTMLElement>('[data-answer] :is(input, select, summary)')]
  return all[all.indexOf(from) + 1] ?? null
}
