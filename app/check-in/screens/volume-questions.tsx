import type { CheckInDrain } from '@/lib/domain/check-in.ts'
import type { DrainAnswers, VolumeUnit } from '../answers/draft.ts'
import { emptyingsOf, fillsBag } from '../answers/emptyings.ts'
import { volumeInMl } from '../answers/numbers.ts'
import { shownBack } from '../answers/shown-back.ts'
import { useForm } from '../form/form-context.ts'
import { rememberHabit } from '../form/habits.ts'
import { Choice } from '../parts/choice.tsx'
import { VesselPicture } from '../parts/vessel-picture.tsx'
import { Written } from '../parts/written.tsx'
import { emptyingOptions, unitOptions } from '../words/options.ts'
import { useSay } from '../words/say.tsx'

type Props = {
  drain: CheckInDrain
  answers: DrainAnswers
  set: (changed: Partial<DrainAnswers>) => void
}

/** The number, its unit, the picture of the marks, and whether it is of one emptying or of several. */
export function VolumeQuestions({ drain, answers, set }: Props) {
  const say = useSay()
  const unit = answers.unit ?? 'mL'
  const ml = volumeInMl(answers.volume, unit)

  // A number that fills the bag asks anew whether it is of one emptying.
  const write = (changed: { volume?: string; unit?: VolumeUnit }) => {
    const next = { ...answers, ...changed }
    set({ ...changed, ...(fillsBag(next, drain) ? { emptyings: undefined } : {}) })
  }
  return (
    <>
      <Written
        field={`volume:${drain.id}`}
        label={say('q.volume')}
        value={answers.volume ?? ''}
        onChange={(volume) => write({ volume })}
      >
        {ml === null ? null : shownBack(answers.volume ?? '', unit, ml, say)}
      </Written>
      <VesselPicture drain={drain} ml={ml} onPick={(volume) => write({ volume, unit: 'mL' })} />
      <Choice
        field={`unit:${drain.id}`}
        legend={say('q.unit')}
        options={unitOptions(say)}
        set="in-a-row"
        value={unit}
        onChange={(chosen) => write({ unit: chosen })}
      />
      <Emptyings drain={drain} answers={answers} set={set} />
    </>
  )
}

/** Asked once and remembered; then said in a line with a way to change it. */
function Emptyings({ drain, answers, set }: Props) {
  const say = useSay()
  const { original } = useForm().draft
  const full = fillsBag(answers, drain)
  const known = answers.emptyings ? undefined : emptyingsOf(answers, drain)
  if (known)
    return (
      <div className="habit">
        <p>{say(`habit.${known}`)}</p>
        <button type="button" onClick={() => set({ habit: undefined })}>
          {say('change')}
        </button>
      </div>
    )
  return (
    <Choice
      field={`emptyings:${drain.id}`}
      legend={say('q.emptyings')}
      options={emptyingOptions(say)}
      value={answers.emptyings}
      onChange={(emptyings) => {
        // What is said of a full bag, or of an earlier report, is no habit.
        if (!full && !original) rememberHabit(drain.id, emptyings)
        set({ emptyings })
      }}
    />
  )
}
