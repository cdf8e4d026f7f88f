'use client'

import Link from 'next/link'
import { useRouter } from 'next/navigation'
import { useEffect, useState } from 'react'
import { backToList, noteOpened } from '@/lib/client/left-list.ts'
import { useFirstFree } from '@/lib/client/use-first-free.ts'
import { Key, keyed } from './key.tsx'
import css from './patient.module.css'
import { useKey } from './use-key.ts'

type Props = {
  patientId: string
  mayTake: boolean
  keysOn: boolean
  /** Goes on, unless something on the page is to be kept first. */
  leave: (go: () => void) => void
  onTrouble: (text: string) => void
}

/** On to the first row that nobody has, or back to the same place in the list. */
export function BetweenCalls({ patientId, mayTake, keysOn, leave, onTrouble }: Props) {
  const router = useRouter()
  const first = useFirstFree()
  const [back, setBack] = useState('/')
  useEffect(() => {
    noteOpened(patientId)
    setBack(backToList())
  }, [patientId])
  const next = () => {
    if (first.isPending) return
    onTrouble('')
    leave(() =>
      first.mutate(patientId, {
        onSuccess: (row) => router.push(`/patients/${row.patientId}`),
        onError: (error) => onTrouble(error.message),
      }),
    )
  }
  useKey('b', keysOn, () => leave(() => router.push(back)))
  useKey('x', keysOn && mayTake, next)
  return (
    <p className={css.between}>
      <Link href={back} prefetch={false} {...keyed('B', keysOn)}>
        Back to the list
      </Link>{' '}
      <Key letter="B" on={keysOn} />
      {mayTake ? (
        <button
          type="button"
          data-quiet
          onClick={next}
          aria-disabled={first.isPending}
          {...keyed('X', keysOn)}
        >
          Next row <Key letter="X" on={keysOn} />
        </button>
      ) : null}
    </p>
  )
}
