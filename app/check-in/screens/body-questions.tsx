import { temperatureInC } from '../answers/numbers.ts'
import { bothScales } from '../answers/shown-back.ts'
import { useForm } from '../form/form-context.ts'
import { AdviceHere } from '../parts/advice-here.tsx'
import { CheckNote } from '../parts/check-note.tsx'
import { Choice } from '../parts/choice.tsx'
import { Written } from '../parts/written.tsx'
import { yesNoOptions } from '../words/options.ts'
import { useSay } from '../words/say.tsx'

const PAIN = Array.from({ length: 11 }, (_, pain) => pain)

/** Temperature, chills and pain. The number alone says whether it is °C or °F. */
export function BodyQuestions() {
  const say = useSay()
  const { draft, patch } = useForm()
  const celsius = draft.noThermometer ? null : temperatureInC(draft.temperature)
  return (
    <>
      <div>
        <Written
          field="temperature"
          label={say('q.temperature')}
          hint={say('q.temperatureHint')}
          value={draft.temperature ?? ''}
          onChange={(temperature) => patch({ temperature, noThermometer: false })}
        >
          {celsius === null ? null : bothScales(celsius, say)}
        </Written>
        <label className="answer">
          <input
            type="checkbox"
            checked={draft.noThermometer === true}
            onChange={(event) => patch({ noThermometer: event.target.checked, temperature: '' })}
          />
          <span>{say('noThermometer')}</span>
        </label>
        <AdviceHere without={(all) => ({ ...all, temperature: '' })} />
      </div>
      <Choice
        field="chills"
        legend={say('q.chills')}
        options={yesNoOptions(say)}
        set="in-a-row"
        value={draft.chills}
        onChange={(chills) => patch({ chills })}
      >
        <AdviceHere without={(all) => ({ ...all, chills: undefined })} />
      </Choice>
      <fieldset id="q-pain" tabIndex={-1} className="question">
        <legend>{say('q.pain')}</legend>
        <p className="hint">{say('q.painHint')}</p>
        <CheckNote field="pain" />
        <div className="numbers">
          {PAIN.map((pain) => (
            <label key={pain} className="number">
              <input
                type="radio"
                name="pain"
                checked={draft.pain === pain}
                onChange={() => patch({ pain })}
              />
              <span>{pain}</span>
            </label>
          ))}
        </div>
        <AdviceHere without={(all) => ({ ...all, pain: undefined })} />
      </fieldset>
    </>
  )
}
