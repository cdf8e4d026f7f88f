import { Screen } from '../parts/screen.tsx'
import { say } from '../words/say.ts'

/** Unknown, over and taken back read alike: whoever holds a wrong link learns nothing from it. */
export function ClosedScreen() {
  return (
    <Screen title={say.closedTitle}>
      {say.closedText.map((text) => (
        <p key={text}>{text}</p>
      ))}
    </Screen>
  )
}

export function UnreachableScreen({ waits, onTry }: { waits: number; onTry: () => void }) {
  return (
    <Screen title={say.unreachableTitle}>
      {waits > 0 ? <p className="state">{say.waitingHere(waits)}</p> : null}
      <p>{say.unreachableText}</p>
      <p>
        <b>{say.unreachableCall}</b>
      </p>
      <button type="button" data-main="" onClick={onTry}>
        {say.tryNow}
      </button>
    </Screen>
  )
}

type ResumeProps = { begun: string; onResume: () => void; onStartAgain: () => void }

export function ResumeScreen({ begun, onResume, onStartAgain }: ResumeProps) {
  return (
    <Screen title={say.resumeTitle}>
      <p>{say.resumeText(begun)}</p>
      <button type="button" data-main="" onClick={onResume}>
        {say.resume}
      </button>
      <button type="button" onClick={onStartAgain}>
        {say.startAgain}
      </button>
    </Screen>
  )
}

type ElsewhereProps = { when: string; receipt: string; onAnother: () => void }

/** Another tab of this phone was first. */
export function ElsewhereScreen({ when, receipt, onAnother }: ElsewhereProps) {
  return (
    <Screen title={say.elsewhereTitle}>
      <p className="state">{say.elsewhereText(when, receipt)}</p>
      <button type="button" onClick={onAnother}>
        {say.another}
      </button>
    </Screen>
  )
}
