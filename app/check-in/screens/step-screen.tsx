import type { Check } from '../answers/checks.ts'
import type { Step } from '../answers/steps.ts'
import { sayWhen } from '../answers/times.ts'
import { titleOf } from '../answers/title.ts'
import { useForm } from '../form/form-context.ts'
import { CheckList } from '../parts/check-list.tsx'
import { Screen } from '../parts/screen.tsx'
import { useSay } from '../words/say.tsx'
import { BodyQuestions } from './body-questions.tsx'
import { DressingQuestions } from './dressing-questions.tsx'
import { FeelQuestions } from './feel-questions.tsx'
import { FlushQuestions } from './flush-questions.tsx'
import { OutputQuestions } from './output-questions.tsx'
import { Summary } from './summary.tsx'
import { TubeQuestions } from './tube-questions.tsx'

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
  const { view, now, original } = useForm()
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
            {at === 0 && view.lastReportAt && !original ? (
              <> · {say('lastReport', { when: sayWhen(view.lastReportAt, now(), say) })}</>
            ) : null}
          </p>
        }
      >
        <CheckList checks={checks} />
        <Questions step={step} onChange={onChange} />
        <button type="submit" data-main="">
          {step.kind !== 'check' ? say('goOn') : original ? say('sendCorrection') : say('send')}
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
  const { view } = useForm()
  if (step.kind === 'feel') return <FeelQuestions />
  if (step.kind === 'body') return <BodyQuestions />
  const drain = view.drains.find((one) => one.id === step.drain)
  if (step.kind === 'check' || !drain) return <Summary onChange={onChange} />
  if (step.kind === 'tube') return <TubeQuestions drain={drain} />
  if (step.kind === 'output') return <OutputQuestions drain={drain} />
  if (step.kind === 'flush') return <FlushQuestions drain={drain} />
  return <DressingQuestions drain={drain} />
}
