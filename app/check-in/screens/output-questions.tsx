import type { CheckInDrain } from '@/lib/domain/check-in.ts'
import type { DrainAnswers } from '../answers/draft.ts'
import { volumeInMl } from '../answers/numbers.ts'
import { sayWhen } from '../answers/times.ts'
import { useForm } from '../form/form-context.ts'
import { AdviceHere } from '../parts/advice-here.tsx'
import { Choice } from '../parts/choice.tsx'
import { WhenChoice } from '../parts/when-choice.tsx'
import { Written } from '../parts/written.tsx'
import { emptyingOptions, looksOptions, outputOptions, questions, unitOptions } from '../words/questions.ts'
import { say } from '../words/say.ts'
import { lacking } from './tube-questions.tsx'

/** How much came out, when, and how it looked. 'Nothing' and 'not measured' are answers of their own. */
export function OutputQuestions({ drain }: { drain: CheckInDrain }) {
  const { draft, patchDrain, now, checkOf } = useForm()
  const answers = draft.drains[drain.id] ?? {}
  const set = (changed: Partial<DrainAnswers>) => patchDrain(drain.id, changed)
  const last = drain.recent.at(-1)
  const measured = answers.output === 'measured'
  const emptied = answers.output !== undefined && answers.output !== 'not-emptied'
  const ml = volumeInMl(answers.volume, answers.unit ?? 'mL')
  const overBag = ml !== null && drain.bagCapacityMl !== null && ml >= drain.bagCapacityMl
  return (
    <>
      <Choice
        field={`output:${drain.id}`}
        legend={questions.output}
        hint={last?.volumeMl == null ? undefined : say.lastTime(last.volumeMl, sayWhen(last.at, now()))}
        options={outputOptions}
        value={answers.output}
        onChange={(output) => set({ output })}
      >
        {measured ? null : <AdviceHere without={lacking(drain.id, 'output')} />}
      </Choice>
      {measured ? (
        <>
          <Written
            field={`volume:${drain.id}`}
            label={questions.volume}
            value={answers.volume ?? ''}
            onChange={(volume) => set({ volume, emptyings: undefined })}
          >
            {ml === null ? null : say.shownBack(answers.volume ?? '', answers.unit ?? 'mL', ml)}
          </Written>
          <Choice
            field={`unit:${drain.id}`}
            legend={questions.unit}
            options={unitOptions}
            set="in-a-row"
            value={answers.unit ?? 'mL'}
            onChange={(unit) => set({ unit, emptyings: undefined })}
          />
          {answers.emptyings || (overBag && checkOf(`emptyings:${drain.id}`)) ? (
            <Choice
              field={`emptyings:${drain.id}`}
              legend={questions.emptyings}
              options={emptyingOptions}
              value={answers.emptyings}
              onChange={(emptyings) => set({ emptyings })}
            />
          ) : null}
        </>
      ) : null}
      {emptied ? (
        <WhenChoice
          field={`outputWhen:${drain.id}`}
          legend={questions.outputWhen}
          value={answers.outputWhen}
          onChange={(outputWhen) => set({ outputWhen })}
        />
      ) : null}
      {emptied && answers.output !== 'nothing' ? (
        <Choice
          field={`looks:${drain.id}`}
          legend={questions.looks}
          options={looksOptions(drain.kind)}
          set="two-columns"
          value={answers.looks}
          onChange={(looks) => set({ looks })}
        >
          <AdviceHere without={lacking(drain.id, 'looks')} />
        </Choice>
      ) : null}
    </>
  )
}
