import { type FormEvent, useState } from 'react'
import { Screen } from '../parts/screen.tsx'
import type { Opened } from '../visit/link.ts'
import { useSay } from '../words/say.tsx'

type Props = {
  waits: number
  /** Null where the page was opened without a link: then there is nothing that a code could renew. */
  onRenew: ((code: string) => Promise<Opened>) | null
}

/** Unknown, over and taken back read alike: whoever holds a wrong link learns nothing from it. */
export function ClosedScreen({ waits, onRenew }: Props) {
  const say = useSay()
  return (
    <Screen title={say('closedTitle')}>
      {waits > 0 ? <p className="state">{say('waits', { count: waits })}</p> : null}
      <p>{say('closedText')}</p>
      {onRenew ? <Renewal onRenew={onRenew} /> : null}
      <p>{say('closedCall')}</p>
    </Screen>
  )
}

function Renewal({ onRenew }: { onRenew: (code: string) => Promise<Opened> }) {
  const say = useSay()
  const [code, setCode] = useState('')
  const [went, setWent] = useState<Opened | 'asking' | null>(null)
  const trouble =
    went === 'link-ended' ? say('renewWrong') : went === 'unreachable' ? say('renewLater') : null
  const submit = async (event: FormEvent) => {
    event.preventDefault()
    if (went === 'asking' || code.trim() === '') return
    setWent('asking')
    setWent(await onRenew(code.trim()))
  }
  return (
    <form className="question" onSubmit={(event) => void submit(event)}>
      <p>{say('renewText')}</p>
      <label htmlFor="renew-code">{say('renewCode')}</label>
      <div role="alert">{trouble ? <p className="check-note">{trouble}</p> : null}</div>
      <div className="written">
        <input
          id="renew-code"
          type="text"
          inputMode="numeric"
          autoComplete="one-time-code"
          maxLength={20}
          dir="ltr"
          value={code}
          onChange={(event) => setCode(event.target.value)}
        />
      </div>
      <button type="submit" data-main="">
        {say('renewDo')}
      </button>
    </form>
  )
}
