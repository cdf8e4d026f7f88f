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
