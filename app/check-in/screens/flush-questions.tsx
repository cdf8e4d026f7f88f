import type { CheckInDrain } from '@/lib/domain/check-in.ts'
import type { DrainAnswers } from '../answers/draft.ts'
import { useForm } from '../form/form-context.ts'
import { useOriginal } from '../form/use-original.ts'
import { AdviceHere } from '../parts/advice-here.tsx'
import { Choice } from '../parts/choice.tsx'
import { WhenChoice } from '../parts/when-choice.tsx'
import { Written } from '../parts/written.tsx'
import { doneOptions, easeOptions } from '../words/options.ts'
import { useSay } from '../words/say.tsx'
import { lacking } from './tube-questions.tsx'

/** The ordered flush: given or not, how much, how it went in. */
export function FlushQuestions({ drain }: { drain: CheckInDrain }) {
  const say = useSay()
  const { draft, patchDrain } = useForm()
  const original = useOriginal(drain.id)
  const answers = draft.drains[drain.id] ?? {}
  const set = (changed: Partial<DrainAnswers>) => patchDrain(drain.id, changed)
  const ordered = drain.flush?.volumeMl
  return (
    <>
      <Choice
        field={`flushed:${drain.id}`}
        legend={say('q.flushed')}
        hint={ordered === undefined ? undefined : say('yourFlush', { ml: ordered })}
        options={doneOptions(say)}
        set="in-a-row"
        value={answers.flushed}
        onChange={(flushed) => set({ flushed, flushVolume: answers.flushVolume ?? `${ordered ?? ''}` })}
      />
      {answers.flushed === 'yes' ? (
        <>
          <Choice
            field={`flushEase:${drain.id}`}
            legend={say('q.flushEase')}
            options={easeOptions(say)}
            value={answers.flushEase}
            onChange={(flushEase) =>
              set({ flushEase, ...(flushEase === 'blocked' ? { flushVolume: '' } : {}) })
            }
          >
            <AdviceHere without={lacking(drain.id, 'flushEase')} />
          </Choice>
          <Written
            field={`flushVolume:${drain.id}`}
            label={say('q.flushVolume')}
            unit={say('milliliterUnit')}
            value={answers.flushVolume ?? ''}
            onChange={(flushVolume) => set({ flushVolume })}
          />
          <WhenChoice
            field={`flushWhen:${drain.id}`}
            legend={say('q.flushWhen')}
            value={answers.flushWhen}
            onChange={(flushWhen) => set({ flushWhen })}
            given={original?.flushWhen}
          />
        </>
      ) : null}
    </>
  )
}
