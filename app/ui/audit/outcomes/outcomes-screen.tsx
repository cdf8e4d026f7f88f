'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { outcomesQuery } from '@/lib/client/outcomes-queries.ts'
import { answerLabels, type DueInquiry, INQUIRY_DAYS, type ShownEvent } from '@/lib/domain/outcomes-page.ts'
import { useKeyChoice } from '../../worklist/use-key-choice.ts'
import audit from '../audit.module.css'
import { DueTable } from './due-table.tsx'
import { EventsTable } from './events-table.tsx'
import { FilePart } from './file-part.tsx'
import { FindPart } from './find-part.tsx'
import { type Opened, OutcomeDialog } from './outcome-dialog.tsx'
import css from './outcomes.module.css'
import { useAnswer } from './use-answer.ts'
import { WithdrawDialog } from './withdraw-dialog.tsx'

/** What became of the patients: who is due to be asked, what was told, and events from anywhere. */
export function OutcomesScreen({ opened: first }: { opened: Opened | null }) {
  const { data: page } = useSuspenseQuery(outcomesQuery)
  const [keysOn, turnKeys] = useKeyChoice()
  const [opened, setOpened] = useState<Opened | null>(first)
  const [withdrawing, setWithdrawing] = useState<ShownEvent | null>(null)
  const [says, setSays] = useState('')
  const [last, setLast] = useState<Opened | null>(null)
  const answering = useAnswer((due, answer) => {
    setSays(`${due.name}: ${answerLabels[answer].toLowerCase()}.`)
    setLast({ patientId: due.patientId, about: due.about })
  })
  const done = (text: string) => {
    setOpened(null)
    setWithdrawing(null)
    setLast(null)
    setSays(text)
  }
  const asked = page.answered.reduce((sum, { n }) => sum + n, 0)
  return (
    <div className={audit.screen}>
      <h1>What became of them</h1>
      <p className={audit.about}>
        Asked of every patient {INQUIRY_DAYS} days after enrolment and at the end of follow-up. Not known is
        an answer; nobody takes it for none.{' '}
        {asked > 0
          ? `${asked} answered so far: ${page.answered.map(({ answer, n }) => `${n} ${answerLabels[answer].toLowerCase()}`).join(', ')}.`
          : 'Nothing was answered so far.'}
      </p>
      <p role="status" className={says ? audit.says : undefined}>
        {says}{' '}
        {last ? (
          <button type="button" data-quiet onClick={() => setOpened(last)}>
            Change this answer
          </button>
        ) : null}
      </p>
      {answering.fault ? (
        <p role="alert" className={audit.fault}>
          {answering.fault}
        </p>
      ) : null}
      <section aria-labelledby="due" className={audit.part}>
        <h2 id="due">
          {page.dueInAll === 0 ? 'Nobody is due to be asked' : `${page.dueInAll} due to be asked`}
        </h2>
        {page.due.length > 0 ? (
          <>
            <p className={audit.quiet}>
              {page.due.length < page.dueInAll ? `The first ${page.due.length} are shown. ` : ''}
              {keysOn ? 'In a row: ↑ ↓ move, 1 none, 2 not known, 3 events. ' : ''}
              <button type="button" data-quiet onClick={turnKeys}>
                {keysOn ? 'Turn keys off' : 'Turn keys on'}
              </button>
            </p>
            <DueTable
              due={page.due}
              asOf={page.asOf}
              isSending={answering.isSending}
              keysOn={keysOn}
              onAnswer={answering.answer}
              onEvents={({ patientId, about }: DueInquiry) => setOpened({ patientId, about })}
            />
          </>
        ) : null}
      </section>
      <div className={css.forms}>
        <FindPart onChosen={(patientId) => setOpened({ patientId, about: null })} />
        <FilePart zone={page.clinic.timeZone} />
      </div>
      <section aria-labelledby="events" className={audit.part}>
        <h2 id="events">Events</h2>
        <p className={audit.quiet}>
          A flag counts as having found an event where it answers that kind and opened in the 7 days before: a
          local choice. An event that nobody told of stands nowhere.
        </p>
        <EventsTable events={page.events} onWithdraw={setWithdrawing} />
      </section>
      {opened ? <OutcomeDialog opened={opened} onClose={() => setOpened(null)} onDone={done} /> : null}
      {withdrawing ? (
        <WithdrawDialog shown={withdrawing} onClose={() => setWithdrawing(null)} onDone={done} />
      ) : null}
    </div>
  )
}
