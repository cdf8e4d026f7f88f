import type { CheckInDrain } from '@/lib/domain/check-in.ts'
import type { Draft, DrainAnswers } from '../answers/draft.ts'
import { useForm } from '../form/form-context.ts'
import { AdviceHere } from '../parts/advice-here.tsx'
import { Choice } from '../parts/choice.tsx'
import { positionOptions, yesNoOptions } from '../words/options.ts'
import { useSay } from '../words/say.tsx'

/** Is the tube where it was, is it tight, does it drain. */
export function TubeQuestions({ drain }: { drain: CheckInDrain }) {
  const say = useSay()
  const { draft, patchDrain } = useForm()
  const answers = draft.drains[drain.id] ?? {}
  const set = (changed: Partial<DrainAnswers>) => patchDrain(drain.id, changed)
  const out = answers.position === 'out'
  return (
    <>
      <Choice
        field={`position:${drain.id}`}
        legend={say('q.position')}
        options={positionOptions(say)}
        value={answers.position}
        onChange={(position) => set({ position })}
      >
        <AdviceHere without={lacking(drain.id, 'position')} />
      </Choice>
      {out ? null : (
        <Choice
          field={`leak:${drain.id}`}
          legend={say('q.leak')}
          options={yesNoOptions(say)}
          set="in-a-row"
          value={answers.leak}
          onChange={(leak) => set({ leak })}
        >
          <AdviceHere without={lacking(drain.id, 'leak')} />
        </Choice>
      )}
      {out || drain.capped ? null : (
        <Choice
          field={`draining:${drain.id}`}
          legend={say('q.draining')}
          options={yesNoOptions(say)}
          set="in-a-row"
          value={answers.draining}
          onChange={(draining) => set({ draining })}
        >
          <AdviceHere without={lacking(drain.id, 'draining')} />
        </Choice>
      )}
    </>
  )
}

/** The answers without one of a drain's. */
export const lacking =
  (drain: string, answer: keyof DrainAnswers) =>
  (draft: Draft): Draft => ({
    ...draft,
    drains: { ...draft.drains, [drain]: { ...draft.drains[drain], [answer]: undefined } },
  })
