import { Screen } from '../parts/screen.tsx'
import { useSay } from '../words/say.tsx'

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
