'use client'

import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { dischargesQuery } from '@/lib/client/discharges-query.ts'
import type { Discharge } from '@/lib/domain/discharge.ts'
import { AddForm } from './add-form.tsx'
import css from './discharges.module.css'
import { FileForm } from './file-form.tsx'
import { SetAsideDialog } from './set-aside-dialog.tsx'
import { SettledList } from './settled-list.tsx'
import { WaitingTable } from './waiting-table.tsx'

/** Who went home with a drain and is not enrolled yet. */
export function DischargesScreen({ zone }: { zone: string }) {
  const { data: list } = useQuery(dischargesQuery)
  const router = useRouter()
  const [aside, setAside] = useState<Discharge | null>(null)
  const [times, setTimes] = useState(1)
  const [says, setSays] = useState('')
  if (!list) return null

  const done = (text: string) => {
    setSays(text)
    setAside(null)
    setTimes(times + 1) // an empty form, with a key of its own
    router.refresh() // the number in the head
  }
  return (
    <div className={css.screen}>
      <div>
        <h1>Discharged with a drain, not enrolled yet</h1>
        <p role="status" className={css.says}>
          {says}
        </p>
      </div>
      {list.waiting.length === 0 ? (
        <p>Nobody waits.</p>
      ) : (
        <WaitingTable waiting={list.waiting} onSetAside={setAside} />
      )}
      <div className={css.forms}>
        <AddForm key={`add-${times}`} onDone={done} />
        <FileForm key={`file-${times}`} onDone={done} />
      </div>
      <SettledList list={list} zone={zone} />
      {aside ? <SetAsideDialog discharge={aside} onClose={() => setAside(null)} onDone={done} /> : null}
    </div>
  )
}
