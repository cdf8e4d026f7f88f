'use client'

import type { SendFault } from '@/lib/client/use-send.ts'
import type { Weekday } from '@/lib/domain/clinic-hours.ts'
import { Choice, FieldFault } from '../parts/field.tsx'
import { faultOf } from '../parts/form-foot.tsx'
import { type ClinicDraft, type SpanDraft, weekdays, withSpan } from './clinic-draft.ts'
import css from './settings.module.css'

type Props = { draft: ClinicDraft; set: (draft: ClinicDraft) => void; fault: SendFault | null }

/** When somebody reads reports, by weekday. */
export function HoursFields({ draft, set, fault }: Props) {
  const setDay = (day: Weekday, spans: SpanDraft[]) =>
    set({ ...draft, week: { ...draft.week, [day]: spans } })
  return (
    <>
      <Choice
        type="checkbox"
        checked={draft.saysHours}
        onChange={(saysHours) => set({ ...draft, saysHours })}
      >
        Tell patients on the check-in page when somebody reads their reports
      </Choice>
      {draft.saysHours ? (
        <div className={css.days}>
          {weekdays.map(({ day, name }) => (
            <section key={day} className={css.day} aria-label={name}>
              <h3>{name}</h3>
              <div className={css.spans}>
                {draft.week[day].length === 0 ? <span className={css.quiet}>closed</span> : null}
                {draft.week[day].map((span) => (
                  <Span
                    key={span.n}
                    name={name}
                    span={span}
                    onChange={(next) =>
                      setDay(
                        day,
                        draft.week[day].map((one) => (one.n === span.n ? next : one)),
                      )
                    }
                    onRemove={() =>
                      setDay(
                        day,
                        draft.week[day].filter((one) => one.n !== span.n),
                      )
                    }
                  />
                ))}
                {draft.week[day].length < 4 ? (
                  <button type="button" data-quiet onClick={() => set(withSpan(draft, day))}>
                    Add hours<span className="for-reader"> on {name}</span>
                  </button>
                ) : null}
              </div>
              <FieldFault text={faultOf(fault, `hours.week.${day}`)} />
            </section>
          ))}
        </div>
      ) : null}
    </>
  )
}

type SpanProps = {
  name: string
  span: SpanDraft
  onChange: (span: SpanDraft) => void
  onRemove: () => void
}

function Span({ name, span, onChange, onRemove }: SpanProps) {
  return (
    <span className={css.span}>
      <input
        type="time"
        aria-label={`${name}, from`}
        value={span.from}
        onChange={(event) => onChange({ ...span, from: event.target.value })}
      />
      to
      <input
        type="time"
        aria-label={`${name}, until`}
        value={span.until}
        onChange={(event) => onChange({ ...span, until: event.target.value })}
      />
      <button type="button" data-quiet onClick={onRemove}>
        Remove<span className="for-reader"> these hours on {name}</span>
      </button>
    </span>
  )
}
