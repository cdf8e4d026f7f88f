import type { CheckInDrain } from '@/lib/domain/check-in.ts'
import type { DrainAnswers } from '../answers/draft.ts'
import { localDay } from '../answers/times.ts'
import { useForm } from '../form/form-context.ts'
import { useOriginal } from '../form/use-original.ts'
import { useSay } from '../words/say.tsx'
import { CheckNote, noteId } from './check-note.tsx'
import { PickedTime } from './picked-time.tsx'
import { WhenChoice } from './when-choice.tsx'

type Props = {
  drain: CheckInDrain
  answers: DrainAnswers
  set: (changed: Partial<DrainAnswers>) => void
}

/** One more emptying that was not measured, at its own time: what came before it is then unknown, not missing. */
export function Unmeasured({ drain, answers, set }: Props) {
  const say = useSay()
  const { now } = useForm()
  const field = `unmeasuredWhen:${drain.id}`
  const when = answers.unmeasuredWhen
  const given = useOriginal(drain.id)?.unmeasuredWhen
  const tick = (unmeasured: boolean) =>
    set({
      unmeasured,
      // The time is left open: 'now' is that of the other emptying.
      unmeasuredWhen: when ?? given ?? { kind: 'earlier', day: localDay(now()), time: '' },
    })
  return (
    <div className="question">
      <label className="answer">
        <input
          type="checkbox"
          checked={answers.unmeasured === true}
          onChange={(event) => tick(event.target.checked)}
        />
        <span>{say('unmeasured')}</span>
      </label>
      {!answers.unmeasured ? null : given ? (
        <WhenChoice
          field={field}
          legend={say('q.unmeasuredWhen')}
          value={when}
          onChange={(unmeasuredWhen) => set({ unmeasuredWhen })}
          given={given}
        />
      ) : (
        <fieldset id={`q-${field}`} tabIndex={-1} className="question" aria-describedby={noteId(field)}>
          <legend>{say('q.unmeasuredWhen')}</legend>
          <CheckNote field={field} />
          {when?.kind === 'earlier' ? (
            <PickedTime value={when} onChange={(unmeasuredWhen) => set({ unmeasuredWhen })} />
          ) : null}
        </fieldset>
      )}
    </div>
  )
}
