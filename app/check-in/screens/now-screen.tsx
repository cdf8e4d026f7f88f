import type { Advice } from '@/lib/domain/submission.ts'
import { AdviceList } from '../parts/advice-list.tsx'
import { Screen } from '../parts/screen.tsx'
import { useSay } from '../words/say.tsx'

type Props = {
  advice: Advice[]
  /** Set where what was filled in went to the clinic by itself; the receipt's number once it has it. */
  told: { receipt: string | null } | null
  onSend: () => void
  onGoOn: () => void
}

/** Interrupts the form: what to do now, from the page itself; then whether the clinic has what is there so far. */
export function NowScreen({ advice, told, onSend, onGoOn }: Props) {
  const say = useSay()
  return (
    <Screen title={say('nowTitle')}>
      <div className="do-now comes-first">
        <AdviceList advice={advice} />
      </div>
      <p role="status" className={told ? 'state' : undefined}>
        {told?.receipt ? say('dangerTold', { receipt: told.receipt }) : told ? say('dangerWaits') : null}
      </p>
      <button type="button" data-main={told ? undefined : ''} onClick={onSend}>
        {told ? say('nowStop') : say('nowSend')}
      </button>
      <button type="button" onClick={onGoOn}>
        {say('nowGoOn')}
      </button>
    </Screen>
  )
}
