'use client'

import { useEffect } from 'react'

/** Until its script is there a page shows what it has and hears nothing: base.css lets the pointer say so. */
export function Ready() {
  useEffect(() => {
    document.documentElement.dataset.ready = ''
  }, [])
  return null
}
