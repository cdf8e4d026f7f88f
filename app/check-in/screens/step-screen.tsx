import { Suspense, useEffect } from 'react'
import type { Check } from '../answers/checks.ts'
import type { Step } from '../answers/steps.ts'
import { sayWhen } from '../answers/times.ts'
import { titleOf } from '../answers/title.ts'
import { useForm } from '../form/form-context.ts'
import { CheckList } from '../parts/check-list.tsx'
import { Screen } from '../parts/screen.tsx'
import { useSay } from '../words/say.tsx'
import { FeelQuestions } from './feel-questions.tsx'
import { fetchAfter, fetchLater, LaterQuestions } from './later.ts'

type Props = {
  step: Step
  at: number
  of: number
  checks: Check[]
  onGoOn: () => void
  onBack: (() => void) | null
  onChange: (step: string) => void
}

/** One screen of the form: where we are, the questions, what is to be looked at, on and back. */
export function StepScreen({ step, at, of, checks, onGoOn, onBack, onChange }: Props) {
  const say = useSay()
  const { view, now, draft } = useForm()
  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        onGoOn()
      }}
    >
      <Screen
        title={titleOf(step, view, say)}
        above={
          <p className="progress">
            {say('step', { n: at + 1, of })}
            {at === 0 && view.lastReportAt && !draft.original ? (
              <> · {say('lastReport', { when: sayWhen(view.lastReportAt, now(), say) })}</>
            ) : null}
          </p>
        }
      >
        <CheckList checks={checks} />
        <Questions step={step} onChange={onChange} />
        <button type="submit" data-main="">
          {step.kind !== 'check' ? say('goOn') : draft.original ? say('sendCorrection') : say('send')}
        </button>
        {onBack ? (
          <button type="button" onClick={onBack}>
            {say('back')}
          </button>
        ) : null}
      </Screen>
    </form>
  )
}

function Questions({ step, onChange }: { step: Step; onChange: (step: string) => void }) {
  const say = useSay()
  useEffect(() => {
    const fetchAll = () => void Promise.all([fetchLater(), fetchAfter()])
    const touches = ['pointerdown', 'keydown'] as const
    for (const touch of touches) window.addEventListener(touch, fetchAll, { once: true })
    return () => {
      for (const touch of touches) window.removeEventListener(touch, fetchAll)
    }
  }, [])
  if (step.kind === 'feel') return <FeelQuestions />
  return (
    <Suspense fallback={<p role="status">{say('opening')}</p>}>
      <LaterQuestions step={step} onChange={onChange} />
    </Suspense>
  )
}
