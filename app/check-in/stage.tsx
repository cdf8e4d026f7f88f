import { useMemo } from 'react'
import type { CheckInView } from '@/lib/domain/check-in.ts'
import { faultsAtFields } from './answers/faults.ts'
import { sayWhen } from './answers/times.ts'
import { Form } from './form/form.tsx'
import { ChooseScreen } from './screens/choose-screen.tsx'
import { ClosedScreen } from './screens/closed-screen.tsx'
import { ForgetScreen, ForgottenScreen } from './screens/forget-screen.tsx'
import { ElsewhereScreen, ResumeScreen, UnreachableScreen } from './screens/plain-screens.tsx'
import { ReceiptScreen } from './screens/receipt-screen.tsx'
import { WaitingScreen } from './screens/waiting-screen.tsx'
import { changeable } from './visit/corrections.ts'
import type { Phase } from './visit/phase.ts'
import type { Visit } from './visit/use-visit.ts'
import { useSay } from './words/say.tsx'

/** The screen of where the visit stands. */
export function Stage({ visit, now }: { visit: Visit; now: Date }) {
  const say = useSay()
  const { phase, view } = visit
  switch (phase.name) {
    case 'opening':
      return (
        <p role="status" className="opening">
          {say('opening')}
        </p>
      )
    case 'closed':
      return <ClosedScreen waits={phase.waits} onRenew={phase.renewable ? visit.renew : null} />
    case 'unreachable':
      return <UnreachableScreen waits={phase.waits} onTry={() => void visit.tryAgain()} />
    case 'forgotten':
      return <ForgottenScreen />
    case 'forget':
      return (
        <ForgetScreen
          waits={phase.waits}
          failed={phase.failed}
          onForget={() => void visit.forget()}
          onKeep={() => visit.show(phase.back)}
        />
      )
    case 'resume':
      return (
        <ResumeScreen
          begun={sayWhen(phase.draft.startedAt, now, say)}
          isChange={phase.instead !== null}
          onResume={() => visit.goOn(phase.draft)}
          onStartAgain={() => {
            if (phase.instead) visit.startInstead(phase.instead)
            else void visit.startNew()
          }}
        />
      )
    case 'sent-elsewhere':
      return (
        <ElsewhereScreen
          when={sayWhen(phase.sent.receivedAt, now, say)}
          receipt={phase.sent.receipt}
          onAnother={() => void visit.startNew()}
        />
      )
    default:
      return view ? <WithView phase={phase} view={view} visit={visit} now={now} /> : null
  }
}

type WithViewProps = {
  phase: Extract<Phase, { name: 'form' | 'waiting' | 'receipt' | 'choose' }>
  view: CheckInView
  visit: Visit
  now: Date
}

function WithView({ phase, view, visit, now }: WithViewProps) {
  switch (phase.name) {
    case 'form':
      return <FormOf phase={phase} view={view} visit={visit} />
    case 'waiting':
      return <WaitingScreen view={view} sent={phase.key} why={phase.why} visit={visit} now={now} />
    case 'receipt':
      return (
        <ReceiptScreen
          receipt={phase.receipt}
          sent={phase.body}
          view={view}
          now={now}
          onAnother={() => void visit.another()}
          onChange={() => visit.show({ name: 'choose', back: phase })}
        />
      )
    case 'choose':
      return (
        <ChooseScreen
          view={view}
          waits={visit.waits}
          now={now}
          onChoose={(entry) => void visit.change(entry)}
          onBack={() => visit.show(phase.back)}
        />
      )
  }
}

type FormOfProps = { phase: Extract<Phase, { name: 'form' }>; view: CheckInView; visit: Visit }

/** The form; where the clinic refused a report, it opens at the first question to be mended. */
function FormOf({ phase, view, visit }: FormOfProps) {
  const say = useSay()
  const { draft, refused } = phase
  const faults = useMemo(
    () => (refused ? faultsAtFields(refused.problem, refused.body, say) : []),
    [refused, say],
  )
  const { waiting, sent } = changeable(view, visit.waits)
  const isChange = draft.original !== undefined
  return (
    <>
      <Form
        key={`${draft.key} ${draft.savedAt}`}
        view={view}
        start={{ ...draft, step: faults[0]?.step ?? draft.step }}
        faults={faults}
        visit={visit}
        below={
          !isChange && waiting.length + sent.length > 0 ? (
            <button type="button" onClick={() => visit.show({ name: 'choose', back: phase })}>
              {say('changeEarlier')}
            </button>
          ) : null
        }
      />
      {isChange ? (
        <button type="button" onClick={() => void visit.startNew()}>
          {say('leaveAsItWas')}
        </button>
      ) : null}
    </>
  )
}
