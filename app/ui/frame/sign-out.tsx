'use client'

import { useState } from 'react'
import { z } from 'zod'
import { ask } from '@/lib/client/ask.ts'
import { forgetList } from '@/lib/client/kept-list.ts'

/** Ends the session on the server, then leaves: nothing of a patient stays behind on a shared computer. */
export function SignOut() {
  const [trouble, setTrouble] = useState(false)
  const leave = async () => {
    try {
      await ask('/api/auth/sign-out', z.unknown(), { method: 'POST', body: {} })
      await forgetList()
      window.sessionStorage.clear() // a form that was begun, a link that was just made
      window.location.replace('/sign-in')
    } catch {
      setTrouble(true)
    }
  }
  return (
    <span>
      <button type="button" data-quiet onClick={leave}>
        Sign out
      </button>
      {trouble ? <span role="alert"> You are still signed in: the server did not answer.</span> : null}
    </span>
  )
}
