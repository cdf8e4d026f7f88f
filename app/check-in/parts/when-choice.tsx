import type { When } from '../answers/draft.ts'
import { localDay, localTime, pickableDays, sayDay } from '../answers/times.ts'
import { useForm } from '../form/form-context.ts'
import { questions } from '../words/questions.ts'
import { Choice } from './choice.tsx'

type Props = { field: string; legend: string; value: When | undefined; onChange: (when: When) => void }

/** 'Just now', unless the person picks an earlier day and time: most reports are about now. */
export function WhenChoice({ field, legend, value, onChange }: Props) {
  const { now } = useForm()
  const kind = value?.kind ?? 'now'
  const choose = (next: 'now' | 'earlier') =>
    onChange(
      next === 'now' ? { kind: 'now' } : { kind: 'earlier', day: localDay(now()), time: localTime(now()) },
    )
  return (
    <Choice
      field={field}
      legend={legend}
      set="in-a-row"
      options={[
        ['now', questions.now],
        ['earlier', questions.earlier],
      ]}
      value={kind}
      onChange={choose}
    >
      {value?.kind === 'earlier' ? (
        <div className="picked-time">
          <label>
            {questions.day}
            <select value={value.day} onChange={(event) => onChange({ ...value, day: event.target.value })}>
              {pickableDays(now()).map((day) => (
                <option key={day} value={day}>
                  {sayDay(day, now())}
                </option>
              ))}
            </select>
          </label>
          <label>
            {questions.time}
            <input
              type="time"
              value={value.time}
              onChange={(event) => onChange({ ...value, time: event.target.value })}
            />
          </label>
        </div>
      ) : null}
    </Choice>
  )
}
