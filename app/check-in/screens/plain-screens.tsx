import { Screen } from '../parts/screen.tsx'
import { useSay } from '../words/say.tsx'

export function UnreachableScreen({ waits, onTry }: { waits: number; onTry: () => void }) {
  const say = useSay()
  return (
    <Screen title={say('unreachableTitle')}>
      {waits > 0 ? <p className="state">{say('waits', { count: waits })}</p> : null}
      <p>{say('unreachableText')}</p>
      <p>
        <b>{say('unreachableCall')}</b>
      </p>
      <button type="button" data-main="" onClick={onTry}>
        {say('tryNow')}
      </button>
    </Screen>
  )
}

type ResumeProps = {
  begun: string
  /** The person was about to change an earlier entry. */
  isChange: boolean
  onResume: () => void
  onStartAgain: () => void
}

export function ResumeScreen({ begun, isChange, onResume, onStartAgain }: ResumeProps) {
  const say = useSay()
  return (
    <Screen title={say('resumeTitle')}>
      <p>{say('resumeText', { when: begun })}</p>
      <button type="button" data-main="" onClick={onResume}>
        {say('resume')}
      </button>
      <button type="button" onClick={onStartAgain}>
        {isChange ? say('changeInstead') : say('startAgain')}
      </button>
    </Screen>
  )
}

type ElsewhereProps = { when: string; receipt: string; onAnother: () => void }

/** Another tab of this phone was first. */
export function ElsewhereScreen({ when, receipt, onAnother }: ElsewhereProps) {
  const say = useSay()
  return (
    <Screen title={say('elsewhereTitle')}>
      <p className="state">{say('elsewhereText', { when, receipt })}</p>
      <button type="button" onClick={onAnother}>
        {say('another')}
      </button>
    </Screen>
  )
}
