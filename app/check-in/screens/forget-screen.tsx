import { Screen } from '../parts/screen.tsx'
import { useSay } from '../words/say.tsx'

type Props = { waits: number; failed: boolean; onForget: () => void; onKeep: () => void }

/** Asked before a phone forgets everything; what is not sent is named, and never lost without these words. */
export function ForgetScreen({ waits, failed, onForget, onKeep }: Props) {
  const say = useSay()
  return (
    <Screen title={say('forgetTitle')}>
      <p>{say('forgetText')}</p>
      {waits > 0 ? <p className="do-now">{say('forgetWaits', { count: waits })}</p> : null}
      <div role="alert">{failed ? <p className="check-note">{say('forgetFailed')}</p> : null}</div>
      <button type="button" data-main="" onClick={onKeep}>
        {say('forgetKeep')}
      </button>
      <button type="button" onClick={onForget}>
        {waits > 0 ? say('forgetLose') : say('forgetDo')}
      </button>
    </Screen>
  )
}

export function ForgottenScreen() {
  const say = useSay()
  return (
    <Screen title={say('forgottenTitle')}>
      <p>{say('forgottenText')}</p>
    </Screen>
  )
}
