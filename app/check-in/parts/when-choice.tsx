import type { When } from '../answers/draft.ts'
import { localDay, localTime, sayWhen } from '../answers/times.ts'
import { useForm } from '../form/form-context.ts'
import type { Options } from '../words/options.ts'
import { useSay } from '../words/say.tsx'
import { Choice } from './choice.tsx'
import { PickedTime } from './picked-time.tsx'

type Props = {
  field: string
  legend: string
  value: When | undefined
  onChange: (when: When) => void
  /** The time that a report being corrected had: it stays on offer whatever is picked. */
  given: When | undefined
}

/** 'Just now', unless the person picks an earlier day and time: most reports are about now. */
export function WhenChoice({ field, legend, value, onChange, given }: Props) {
  const say = useSay()
  const { now } = useForm()
  const kept = given?.kind === 'at' ? given.at : null
  const options: Options<When['kind']> = [
    ...(kept ? [['at', sayWhen(kept, now(), say)] as const] : []),
    ['now', say('when.now')],
    ['earlier', kept ? say('when.other') : say('when.earlier')],
  ]
  const choose = (kind: When['kind']) => {
    if (kind === 'now') return onChange({ kind })
    if (kind === 'at') return onChange({ kind, at: kept ?? now().toISOString() })
    const from = kept ? new Date(kept) : now()
    onChange({ kind, day: localDay(from), time: localTime(from) })
  }
  return (
    <Choice
      field={field}
      legend={legend}
      set={kept ? undefined : 'in-a-row'}
      options={options}
      value={value?.kind ?? 'now'}
      onChange={choose}
    >
      {value?.kind === 'earlier' ? <PickedTime value={value} onChange={onChange} /> : null}
    </Choice>
  )
}
