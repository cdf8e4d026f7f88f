import { lazy, Suspense, useEffect } from 'react'
import type { CheckInView } from '@/lib/domain/check-in.ts'
import { sayWhen } from './answers/times.ts'
import { Form } from './form/form.tsx'
import { OpenNow } from './parts/open-now.tsx'
import { fetchAfter, fetchRare } from './screens/later.ts'
import { UnreachableScreen } from './screens/plain-screens.tsx'
import { changeable } from './visit/changeable.ts'
import type { Phase } from './visit/phase.ts'
import type { Visit } from './visit/use-visit.ts'
import { useSay } from './words/say.tsx'

const NO_FAULTS: [] = []

// Loaded when they are needed; the worker keeps them with the rest.
const ReceiptScreen = lazy(async () => ({ default: (await fetchAfter()).ReceiptScreen }))
const WaitingScreen = lazy(async () => ({ default: (await fetchAfter()).WaitingScreen }))
const ElsewhereScreen = lazy(async () => ({ default: (await fetchRare()).ElsewhereScreen }))
const ResumeScreen = lazy(async () => ({ default: (await fetchRare()).ResumeScreen }))
const RefusedForm = lazy(async () => ({ default: (await fetchRare()).RefusedForm }))
const ChooseScreen = lazy(async () => ({ default: (await fetchRare()).ChooseScreen }))
const ClosedScreen = lazy(async () => ({ default: (await fetchRare()).ClosedScreen }))
const ForgetScreen = lazy(async () => ({ default: (await fetchRare()).ForgetScreen }))
const ForgottenScreen = lazy(async () => ({ default: (await fetchRare()).ForgottenScreen }))

type StageProps = { visit: Visit; now: Date }

/** The screen of where the visit stands. */
export function Stage(props: StageProps) {
  const say = useSay()
  const { name } = props.visit.phase
  return (
    <Suspense key={name} fallback={<p role="status">{say('opening')}</p>}>
      <Now {...props} />
      {name === 'opening' || name === 'form' ? null : <Arrival />}
    </Suspense>
  )
}

/** A new state begins at its heading, once its screen is there; the first one after opening does not take the focus. */
function Arrival() {
  useEffect(() => {
    window.scrollTo(0, 0)
    document.getElementById('screen')?.focus({ preventScroll: true })
  }, [])
  return null
}

function Now({ visit, now }: StageProps) {
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
          onKeep={() => void visit.back(phase.back)}
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
      return <FormOf phase={phase} view={view} visit={visit} now={now} />
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
          onBack={() => void visit.back(phase.back)}
        />
      )
  }
}

type FormOfProps = { phase: Extract<Phase, { name: 'form' }>; view: CheckInView; visit: Visit; now: Date }

/** The form; in its own way where the clinic refused a report. */
function FormOf({ phase, view, visit, now }: FormOfProps) {
  const say = useSay()
  const { draft, refused } = phase
  const { waiting, sent } = changeable(view, visit.waits)
  const isChange = draft.original !== undefined
  const below = (
    <>
      <OpenNow clinic={view.clinic} now={now} />
      {!isChange && waiting.length + sent.length > 0 ? (
        <button type="button" onClick={() => visit.show({ name: 'choose', back: phase })}>
          {say('changeEarlier')}
        </button>
      ) : null}
    </>
  )
  const key = `${draft.key} ${draft.savedAt}`
  return (
    <>
      {refused ? (
        <RefusedForm key={key} draft={draft} refused={refused} view={view} visit={visit} below={below} />
      ) : (
        <Form key={key} view={view} start={draft} faults={NO_FAULTS} visit={visit} below={below} />
      )}
      {isChange ? (
        <button type="button" onClick={() => void visit.startNew()}>
          {say('leaveAsItWas')}
        </button>
      ) : null}
    </>
  )
}
