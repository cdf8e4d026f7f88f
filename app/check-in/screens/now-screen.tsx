import type { Advice } from '@/lib/domain/submission.ts'
import { AdviceList } from '../parts/advice-list.tsx'
import { Screen } from '../parts/screen.tsx'
import { say } from '../words/say.ts'

type Props = { advice: Advice[]; onSend: () => void; onGoOn: () => void }

/** Interrupts the form: what to do now, from the page itself; then the report, with what is there so far. */
export function NowScreen({ advice, onSend, onGoOn }: Props) {
  return (
    <Screen title={say.nowTitle}>
      <div className="do-now">
        <AdviceList advice={advice} />
      </div>
      <button type="button" data-main="" onClick={onSend}>
        {say.nowSend}
      </button>
      <button type="button" onClick={onGoOn}>
        {say.nowGoOn}
      </button>
    </Screen>
  )
}
