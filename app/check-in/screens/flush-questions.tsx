import type { CheckInDrain } from '@/lib/domain/check-in.ts'
import type { DrainAnswers } from '../answers/draft.ts'
import { useForm } from '../form/form-context.ts'
import { AdviceHere } from '../parts/advice-here.tsx'
import { Choice } from '../parts/choice.tsx'
import { WhenChoice } from '../parts/when-choice.tsx'
import { Written } from '../parts/written.tsx'
import { doneOptions, easeOptions, questions } from '../words/questions.ts'
import { say } from '../words/say.ts'
import { lacking } from './tube-questions.tsx'

/** The ordered flush: given or not, how much, how it went in. */
export function FlushQuestions({ drain }: { drain: CheckInDrain }) {
  const { draft, patchDrain } = useForm()
  const answers = draft.drains[drain.id] ?? {}
  const set = (changed: Partial<DrainAnswers>) => patchDrain(drain.id, changed)
  const ordered = drain.flush?.volumeMl
  return (
    <>
      <Choice
        field={`flushed:${drain.id}`}
        legend={questions.flushed}
        hint={ordered === undefined ? undefined : say.yourFlush(ordered)}
        options={doneOptions}
        set="in-a-row"
        value={answers.flushed}
        onChange={(flushed) => set({ flushed, flushVolume: answers.flushVolume ?? `${ordered ?? ''}` })}
      />
      {answers.flushed === 'yes' ? (
        <>
          <Choice
            field={`flushEase:${drain.id}`}
            legend={questions.flushEase}
            options={easeOptions}
            value={answers.flushEase}
            onChange={(flushEase) =>
              set({ flushEase, ...(flushEase === 'blocked' ? { flushVolume: '' } : {}) })
            }
          >
            <AdviceHere without={lacking(drain.id, 'flushEase')} />
          </Choice>
          <Written
            field={`flushVolume:${drain.id}`}
            label={questions.flushVolume}
            unit="mL"
            value={answers.flushVolume ?? ''}
            onChange={(flushVolume) => set({ flushVolume })}
          />
          <WhenChoice
            field={`flushWhen:${drain.id}`}
            legend={questions.flushWhen}
            value={answers.flushWhen}
            onChange={(flushWhen) => set({ flushWhen })}
          />
        </>
      ) : null}
    </>
  )
}
