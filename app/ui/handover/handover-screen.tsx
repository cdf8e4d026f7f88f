'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { handoverQuery } from '@/lib/client/handover-queries.ts'
import { useLive } from '@/lib/client/use-live.ts'
import { staying } from '@/lib/domain/handover.ts'
import { clockTime } from '@/lib/domain/local-time.ts'
import type { StaffMember } from '@/lib/domain/staff.ts'
import { Earlier } from './earlier.tsx'
import css from './handover.module.css'
import { Panel } from './panel.tsx'
import { Sheet } from './sheet.tsx'
import { useStep } from './use-step.ts'

/** The page for the next shift, live, and the handing over of it. */
export function HandoverScreen({ staff }: { staff: StaffMember }) {
  const { data, error } = useSuspenseQuery(handoverQuery)
  const live = useLive()
  const stepper = useStep()
  const { sheet, earlier } = data
  const { handover, entries } = sheet
  const isGiver = handover?.givenBy.id === staff.id
  const open = handover !== null && !isGiver ? handover : null
  const isLost = error !== null || live.state === 'lost'
  return (
    <div className={css.screen}>
      <div className={css.title}>
        <h1>Handover</h1>
        <p className={css.tools}>
          <button type="button" onClick={() => window.print()}>
            Print
          </button>
          {handover ? (
            <a className="button" href={`/api/handovers/${handover.id}/pdf`}>
              PDF
            </a>
          ) : null}
        </p>
      </div>
      <div role="status">
        {isLost ? (
          <p className={css.lost}>
            <b>
              Not live
              {live.heardMs === null ? '' : ` since ${clockTime(live.heardMs, sheet.clinic.timeZone)}`}.
            </b>{' '}
            What you see is as of {clockTime(sheet.asOf, sheet.clinic.timeZone)}. It is tried again by itself.
          </p>
        ) : null}
      </div>
      <Panel staff={staff} sheet={sheet} waiting={staying(entries).length} stepper={stepper} />
      <p role={stepper.isFault ? 'alert' : 'status'} className={stepper.says ? css.says : undefined}>
        {stepper.says}
        {stepper.signed ? (
          <>
            {' '}
            <Link href={`/handover/${stepper.signed}`} prefetch={false}>
              The signed page
            </Link>
          </>
        ) : null}
      </p>
      <Sheet
        sheet={sheet}
        accept={
          open
            ? {
                isBusy: stepper.isBusy,
                press: ({ patientId, name }) =>
                  stepper.step(open.id, { step: 'accept', patientId }, `You have accepted ${name}.`),
              }
            : null
        }
      />
      <Earlier earlier={earlier} asOf={sheet.asOf} zone={sheet.clinic.timeZone} />
    </div>
  )
}
