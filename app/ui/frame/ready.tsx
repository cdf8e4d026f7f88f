'use client'

import { useEffect } from 'react'
import { READY } from './early.ts'

/** Says that the page hears: what was pressed before is done now (early.ts), and the pointer no longer waits (base.css). */
export function Ready() {
  useEffect(() => {
    document.documentElement.dataset.ready = ''
    window.dispatchEvent(new Event(READY))
  }, [])
  return null
}
