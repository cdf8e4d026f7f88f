'use client'

import { useEffect, useState } from 'react'

const PLACE = 'outflow.single-keys'

/** Whether keys without a modifier act: whoever dictates to the computer can turn them off, and it is kept. */
export function useKeyChoice(): [boolean, () => void] {
  const [on, setOn] = useState(true)
  useEffect(() => {
    try {
      setOn(localStorage.getItem(PLACE) !== 'off')
    } catch {
      // A browser that keeps nothing: on, as at first.
    }
  }, [])
  const turn = () => {
    setOn(!on)
    try {
      localStorage.setItem(PLACE, on ? 'off' : 'on')
    } catch {
      // For this page only, then.
    }
  }
  return [on, turn]
}
