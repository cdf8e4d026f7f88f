import type { Step } from '../answers/steps.ts'
import { useForm } from '../form/form-context.ts'
import { BodyQuestions } from './body-questions.tsx'
import { DressingQuestions } from './dressing-questions.tsx'
import { FlushQuestions } from './flush-questions.tsx'
import { OutputQuestions } from './output-questions.tsx'
import { Summary } from './summary.tsx'
import { TubeQuestions } from './tube-questions.tsx'

/** The questions of every screen after the first. */
export default function LaterQuestions({ step, onChange }: { step: Step; onChange: (step: string) => void }) {
  const { view } = useForm()
  if (step.kind === 'body') return <BodyQuestions />
  const drain = view.drains.find((one) => one.id === step.drain)
  if (step.kind === 'check' || !drain) return <Summary onChange={onChange} />
  if (step.kind === 'tube') return <TubeQuestions drain={drain} />
  if (step.kind === 'output') return <OutputQuestions drain={drain} />
  if (step.kind === 'flush') return <FlushQuestions drain={drain} />
  return <DressingQuestions drain={drain} />
}
