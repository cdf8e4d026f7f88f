import type { General } from '@/lib/domain/words.ts'
import { useForm } from '../form/form-context.ts'
import { AdviceHere } from '../parts/advice-here.tsx'
import { CheckNote } from '../parts/check-note.tsx'
import { generalOptions } from '../words/options.ts'
import { useSay } from '../words/say.tsx'

/** What cannot wait, first: several may fit, or none, said in so many words. */
export function FeelQuestions() {
  const say = useSay()
  const { draft, patch } = useForm()
  const toggle = (symptom: General, on: boolean) =>
    patch({
      general: on ? [...draft.general, symptom] : draft.general.filter((one) => one !== symptom),
      generalNone: false,
    })
  return (
    <fieldset id="q-general" tabIndex={-1} className="question">
      <legend>{say('q.general')}</legend>
      <p className="hint">{say('q.generalHint')}</p>
      <CheckNote field="general" />
      <div className="answers">
        {generalOptions(say).map(([symptom, label]) => (
          <label key={symptom} className="answer">
            <input
              type="checkbox"
              checked={draft.general.includes(symptom)}
              onChange={(event) => toggle(symptom, event.target.checked)}
            />
            <span>{label}</span>
          </label>
        ))}
        <label className="answer">
          <input
            type="checkbox"
            checked={draft.generalNone === true}
            onChange={(event) => patch({ generalNone: event.target.checked, general: [] })}
          />
          <span>{say('noneOfThese')}</span>
        </label>
      </div>
      <AdviceHere without={(all) => ({ ...all, general: [] })} />
    </fieldset>
  )
}
