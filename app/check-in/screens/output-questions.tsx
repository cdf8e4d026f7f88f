import type { CheckInDrain } from '@/lib/domain/check-in.ts'
import type { DrainAnswers } from '../answers/draft.ts'
import { sayWhen } from '../answers/times.ts'
import { useForm } from '../form/form-context.ts'
import { habitOf } from '../form/habits.ts'
import { useOriginal } from '../form/use-original.ts'
import { AdviceHere } from '../parts/advice-here.tsx'
import { Choice } from '../parts/choice.tsx'
import { Unmeasured } from '../parts/unmeasured.tsx'
import { WhenChoice } from '../parts/when-choice.tsx'
import { looksOptions, outputOptions } from '../words/options.ts'
import { useSay } from '../words/say.tsx'
import { lacking } from './tube-questions.tsx'
import { VolumeQuestions } from './volume-questions.tsx'

/** How much came out, when, and how it looked. 'Nothing' and 'not measured' are answers of their own. */
export function OutputQuestions({ drain }: { drain: CheckInDrain }) {
  const say = useSay()
  const { draft, patchDrain, now } = useForm()
  const original = useOriginal(drain.id)
  const answers = draft.drains[drain.id] ?? {}
  const set = (changed: Partial<DrainAnswers>) => patchDrain(drain.id, changed)
  const last = drain.recent.at(-1)
  const measured = answers.output === 'measured'
  const emptied = answers.output !== undefined && answers.output !== 'not-emptied'
  return (
    <>
      <Choice
        field={`output:${drain.id}`}
        legend={say('q.output')}
        hint={
          last?.volumeMl == null || original
            ? undefined
            : say('lastTime', { ml: last.volumeMl, when: sayWhen(last.at, now(), say) })
        }
        options={outputOptions(say)}
        value={answers.output}
        onChange={(output) => set({ output, habit: answers.habit ?? habitOf(drain.id) })}
      >
        {measured ? null : <AdviceHere without={lacking(drain.id, 'output')} />}
      </Choice>
      {measured ? <VolumeQuestions drain={drain} answers={answers} set={set} /> : null}
      {emptied ? (
        <WhenChoice
          field={`outputWhen:${drain.id}`}
          legend={say('q.outputWhen')}
          value={answers.outputWhen}
          onChange={(outputWhen) => set({ outputWhen })}
          given={original?.outputWhen}
        />
      ) : null}
      {emptied && answers.output !== 'nothing' ? (
        <Choice
          field={`looks:${drain.id}`}
          legend={say('q.looks')}
          options={looksOptions(say, drain.kind, original?.looks)}
          set="two-columns"
          value={answers.looks}
          onChange={(looks) => set({ looks })}
        >
          <AdviceHere without={lacking(drain.id, 'looks')} />
        </Choice>
      ) : null}
      {answers.output ? <Unmeasured drain={drain} answers={answers} set={set} /> : null}
    </>
  )
}
