import { Screen } from '../parts/screen.tsx'
import { useSay } from '../words/say.tsx'

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
