'use client'

import type { SendFault } from '@/lib/client/use-send.ts'
import { FieldFault } from '../parts/field.tsx'
import { faultOf } from '../parts/form-foot.tsx'
import type { ClinicDraft, HolidayDraft } from './clinic-draft.ts'
import css from './settings.module.css'

type Props = { draft: ClinicDraft; set: (draft: ClinicDraft) => void; fault: SendFault | null }

/** Days on which nobody reads, whatever the weekday. */
export function HolidaysFields({ draft, set, fault }: Props) {
  const change = (next: HolidayDraft) =>
    set({ ...draft, holidays: draft.holidays.map((one) => (one.n === next.n ? next : one)) })
  return (
    <div className={css.days}>
      {draft.holidays.map((holiday, i) => (
        <div key={holiday.n} className={css.span}>
          <input
            type="date"
            aria-label={`Holiday ${i + 1}, day`}
            value={holiday.date}
            onChange={(event) => change({ ...holiday, date: event.target.value })}
          />
          <input
            aria-label={`Holiday ${i + 1}, name`}
            placeholder="name"
            size={24}
            maxLength={80}
            value={holiday.name}
            onChange={(event) => change({ ...holiday, name: event.target.value })}
          />
          <button
            type="button"
            data-quiet
            onClick={() => set({ ...draft, holidays: draft.holidays.filter(({ n }) => n !== holiday.n) })}
          >
            Remove<span className="for-reader"> holiday {i + 1}</span>
          </button>
        </div>
      ))}
      <FieldFault text={faultOf(fault, 'hours.holidays')} />
      <p>
        <button
          type="button"
          data-quiet
          onClick={() =>
            set({
              ...draft,
              holidays: [...draft.holidays, { n: draft.next, date: '', name: '' }],
              next: draft.next + 1,
            })
          }
        >
          Add a holiday
        </button>
      </p>
    </div>
  )
}
