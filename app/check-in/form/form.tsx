import { type ReactNode, useEffect, useRef, useState } from 'react'
import type { CheckInView } from '@/lib/domain/check-in.ts'
import { type Check, checksOf, topicOf } from '../answers/checks.ts'
import type { Draft } from '../answers/draft.ts'
import type { ClinicFault } from '../answers/faults.ts'
import { type Step, stepsOf } from '../answers/steps.ts'
import { type Here, nameOf, unreadEmergencies, urgentNow } from '../answers/urgent.ts'
import { AdviceStrip } from '../parts/advice-strip.tsx'
import { focusChecks } from '../parts/check-list.tsx'
import { NowScreen } from '../screens/now-screen.tsx'
import { StepScreen } from '../screens/step-screen.tsx'
import type { Visit } from '../visit/use-visit.ts'
import { useSay } from '../words/say.tsx'
import { fixTimes } from './fix-times.ts'
import { type Form as Answers, FormContext } from './form-context.ts'
import { useDraft } from './use-draft.ts'
import { NOW, useSteps } from './use-steps.ts'

type Props = {
  view: CheckInView
  start: Draft
  faults: ClinicFault[]
  visit: Visit
  /** What stands below the first screen alone. */
  below?: ReactNode
}

/** The questions, one screen at a time, from the first answer to 'send'. */
export function Form({ view, start, faults, visit, below }: Props) {
  const say = useSay()
  const [draft, change] = useDraft(view, start, visit)
  const [tries, setTries] = useState(0)
  const [fromClinic, setFromClinic] = useState(faults)
  const sending = useRef(false)
  const instant = () => visit.clock.now().toISOString()
  const here = (): Here => ({ view, language: say.language, now: instant() })
  const [carried, setCarried] = useState(() => urgentNow(start, here()))
  const { goTo, goBack } = useSteps(start.step, (step) => {
    setTries(0)
    setCarried(urgent)
    change((from) => ({ ...from, step }))
  })

  const urgent = urgentNow(draft, here())

  // A new screen begins at its heading, for the eye and for a screen reader; not when the page first opens.
  const shown = useRef(start.step)
  useEffect(() => {
    if (shown.current === draft.step) return
    shown.current = draft.step
    window.scrollTo(0, 0)
    document.getElementById('screen')?.focus({ preventScroll: true })
  }, [draft.step])

  const steps = stepsOf(view, draft)
  const at = Math.max(
    0,
    steps.findIndex((step) => step.id === draft.step),
  )
  const step = steps[at] as Step

  const sendOnce = (from: Draft) => {
    if (sending.current) return // a double tap is one report
    sending.current = true
    void visit.send(view, from)
  }

  /** A danger does not wait for the end of the form: the clinic is told at once, each danger one time. */
  const tellDangers = (from: Draft, dangers: string[]): Partial<Draft> => {
    const known = from.dangersSent ?? []
    if (dangers.every((danger) => known.includes(danger))) return {}
    const dangersSent = [...new Set([...known, ...dangers])]
    return { dangersSent, dangerSentKey: visit.sendDanger(view, { ...from, dangersSent }) }
  }

  const proceed = (from: Draft) => {
    const fixed = fixTimes(from, step, instant())
    setFromClinic((all) => all.filter((fault) => fault.step !== step.id))
    change(() => fixed)
    if (checksOf(step, fixed, view, visit.clock.now(), say).length > 0) return setTries((count) => count + 1)
    const next = fixed.returnTo ?? stepsOf(view, fixed)[at + 1]?.id
    const dangers = unreadEmergencies(fixed, here()).map(nameOf)
    if (dangers.length > 0) {
      const told = tellDangers(fixed, dangers)
      change((now) => ({ ...now, ...told, afterAdvice: next ?? step.id }))
      return goTo(NOW)
    }
    if (!next) return sendOnce(fixed)
    change(({ returnTo: _, ...now }) => now)
    goTo(next)
  }

  const readAndGoOn = () => {
    const next = draft.afterAdvice ?? steps[0]?.id ?? 'feel'
    change(({ returnTo: _, ...now }) => ({ ...now, adviceRead: urgent.map(nameOf) }))
    goTo(next)
  }

  const checks: Check[] = [
    ...fromClinic.filter((fault) => fault.step === step.id),
    ...(tries > 0 ? checksOf(step, draft, view, visit.clock.now(), say) : []),
  ]

  // Said at once, and each time that the person tries to go on; not while they are mending it.
  const latest = useRef(checks)
  useEffect(() => {
    latest.current = checks
  })
  const arrived = fromClinic.length > 0
  useEffect(() => {
    if (tries > 0 || arrived) focusChecks(latest.current)
  }, [tries, arrived])

  const form: Answers = {
    view,
    draft,
    now: visit.clock.now,
    patch: (answers) => change((from) => fixTimes({ ...from, ...answers }, step, instant())),
    patchDrain: (drain, answers) =>
      change((from) => {
        const drains = { ...from.drains, [drain]: { ...from.drains[drain], ...answers } }
        return fixTimes({ ...from, drains }, step, instant())
      }),
    checkOf: (field) => checks.find((check) => check.field === field),
    confirm: (check) => proceed({ ...draft, sure: { ...draft.sure, [topicOf(check)]: check.again ?? '' } }),
  }

  if (draft.step === NOW && urgent.length > 0)
    return (
      <NowScreen
        advice={urgent}
        told={draft.dangerSentKey ? { receipt: visit.receipts[draft.dangerSentKey]?.receipt ?? null } : null}
        onSend={() => sendOnce(draft)}
        onGoOn={readAndGoOn}
      />
    )

  return (
    <FormContext value={form}>
      <AdviceStrip
        advice={urgent.filter((advice) => carried.some((before) => nameOf(before) === nameOf(advice)))}
        onRead={() => {
          change((from) => ({ ...from, afterAdvice: step.id }))
          goTo(NOW)
        }}
      />
      <StepScreen
        step={step}
        at={at}
        of={steps.length}
        checks={checks}
        onGoOn={() => proceed(draft)}
        onBack={at > 0 ? () => goBack(steps[at - 1]?.id ?? 'feel') : null}
        onChange={(target) => {
          change((from) => ({ ...from, returnTo: 'check' }))
          goTo(target)
        }}
      />
      {at === 0 ? below : null}
    </FormContext>
  )
}
