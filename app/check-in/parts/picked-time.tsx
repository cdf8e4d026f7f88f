import type { When } from '../answers/draft.ts'
import { pickableDays, sayDay } from '../answers/times.ts'
import { useForm } from '../form/form-context.ts'
import { useSay } from '../words/say.tsx'

type Picked = Extract<When, { kind: 'earlier' }>

/** A day of the last week and a clock time, by the phone's own pickers. */
export function PickedTime({ value, onChange }: { value: Picked; onChange: (when: Picked) => void }) {
  const say = useSay()
  const { now } = useForm()
  return (
    <div className="picked-time">
      <label>
        {say('when.day')}
        <select value={value.day} onChange={(event) => onChange({ ...value, day: event.target.value })}>
          {pickableDays(now()).map((day) => (
            <option key={day} value={day}>
              {sayDay(day, now(), say)}
            </option>
          ))}
        </select>
      </label>
      <label>
        {say('when.time')}
        <input
          type="time"
          value={value.time}
          onChange={(event) => onChange({ ...value, time: event.target.value })}
        />
      </label>
    </div>
  )
}
