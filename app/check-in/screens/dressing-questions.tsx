import type { CheckInDrain } from '@/lib/domain/check-in.ts'
import type { DrainAnswers } from '../answers/draft.ts'
import { useForm } from '../form/form-context.ts'
import { useOriginal } from '../form/use-original.ts'
import { Choice } from '../parts/choice.tsx'
import { WhenChoice } from '../parts/when-choice.tsx'
import { doneOptions, foundOptions, skinOptions } from '../words/options.ts'
import { useSay } from '../words/say.tsx'

/** The dressing as it was found, the skin under it, and whether it was changed. */
export function DressingQuestions({ drain }: { drain: CheckInDrain }) {
  const say = useSay()
  const { draft, patchDrain } = useForm()
  const original = useOriginal(drain.id)
  const answers = draft.drains[drain.id] ?? {}
  const set = (changed: Partial<DrainAnswers>) => patchDrain(drain.id, changed)
  return (
    <>
      <Choice
        field={`found:${drain.id}`}
        legend={say('q.found')}
        options={foundOptions(say)}
        set="two-columns"
        value={answers.found}
        onChange={(found) => set({ found })}
      />
      <Choice
        field={`skin:${drain.id}`}
        legend={say('q.skin')}
        options={skinOptions(say)}
        set="two-columns"
        value={answers.skin}
        onChange={(skin) => set({ skin })}
      />
      <Choice
        field={`dressingChanged:${drain.id}`}
        legend={say('q.dressingChanged')}
        options={doneOptions(say)}
        set="in-a-row"
        value={answers.dressingChanged}
        onChange={(dressingChanged) => set({ dressingChanged })}
      />
      {answers.dressingChanged === 'yes' ? (
        <WhenChoice
          field={`dressingWhen:${drain.id}`}
          legend={say('q.dressingWhen')}
          value={answers.dressingWhen}
          onChange={(dressingWhen) => set({ dressingWhen })}
          given={original?.dressingWhen}
        />
      ) : null}
    </>
  )
}
