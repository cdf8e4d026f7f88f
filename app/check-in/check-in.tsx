'use client'

import { useEffect } from 'react'
import { sayWhen } from './answers/times.ts'
import { Form } from './form/form.tsx'
import { CallBar } from './parts/call-bar.tsx'
import { ClosedScreen, ElsewhereScreen, ResumeScreen, UnreachableScreen } from './screens/plain-screens.tsx'
import { ReceiptScreen } from './screens/receipt-screen.tsx'
import { WaitingScreen } from './screens/waiting-screen.tsx'
import { useOneTap } from './visit/use-one-tap.ts'
import { useVisit } from './visit/use-visit.ts'
import { say } from './words/say.ts'

/** The check-in of one person, from their link to the receipt. */
export function CheckIn() {
  const visit = useVisit()
  useOneTap()
  const { phase } = visit
  const view = 'view' in phase ? phase.view : null

  // A new state begins at its heading; the first screen after opening does not take the focus.
  useEffect(() => {
    if (phase.name === 'opening' || phase.name === 'form') return
    window.scrollTo(0, 0)
    document.getElementById('screen')?.focus({ preventScroll: true })
  }, [phase.name])

  return (
    <>
      {view ? (
        <p className="whose">
          {say.hello(view.patient.firstName)} · {view.clinic.name}
          {view.clinic.demo ? <span>{say.demo}</span> : null}
        </p>
      ) : (
        <p className="whose">{say.clinicNumber}</p>
      )}
      <Now visit={visit} />
      {view ? <CallBar clinic={view.clinic} /> : null}
    </>
  )
}

function Now({ visit }: { visit: ReturnType<typeof useVisit> }) {
  const { phase, clock } = visit
  switch (phase.name) {
    case 'opening':
      return (
        <p role="status" className="opening">
          {say.opening}
        </p>
      )
    case 'closed':
      return <ClosedScreen />
    case 'unreachable':
      return <UnreachableScreen waits={phase.waits} onTry={visit.tryAgain} />
    case 'resume':
      return (
        <ResumeScreen
          begun={sayWhen(phase.draft.startedAt, clock.now())}
          onResume={() => visit.goOn(phase.view, phase.draft)}
          onStartAgain={() => void visit.startNew(phase.view)}
        />
      )
    case 'form':
      return (
        <Form
          key={`${phase.draft.key} ${phase.draft.savedAt}`}
          view={phase.view}
          start={phase.draft}
          faults={phase.faults}
          visit={visit}
        />
      )
    case 'waiting':
      return (
        <WaitingScreen
          view={phase.view}
          report={phase.report}
          why={phase.why}
          lasting={visit.lasting()}
          onTry={visit.tryAgain}
        />
      )
    case 'receipt':
      return (
        <ReceiptScreen
          receipt={phase.receipt}
          now={clock.now()}
          onAnother={() => void visit.startNew(phase.view)}
        />
      )
    case 'sent-elsewhere':
      return (
        <ElsewhereScreen
          when={sayWhen(phase.sent.receivedAt, clock.now())}
          receipt={phase.sent.receipt}
          onAnother={() => void visit.startNew(phase.view)}
        />
      )
  }
}
