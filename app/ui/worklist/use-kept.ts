'use client'

import { useEffect, useState } from 'react'

/** A choice of yes or no that this computer keeps, for whoever works at it. */
export function useKept(place: string, otherwise: boolean): [boolean, () => void] {
  const [on, setOn] = useState(otherwise)
  useEffect(() => {
    try {
      const kept = localStorage.getItem(place)
      setOn(kept === null ? otherwise : kept === 'on')
    } catch {
      // A browser that keeps nothing: as at first.
    }
  }, [place, otherwise])
  const turn = () => {
    setOn(!on)
    try {
      localStorage.setItem(place, on ? 'off' : 'on')
    } catch {
      // For this page only, then.
    }
  }
  return [on, turn]
}
