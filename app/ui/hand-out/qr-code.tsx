'use client'

import { useEffect, useState } from 'react'
import css from './hand-out.module.css'

/** Light modules around the code, without which phones do not find it. */
const QUIET = 4

/**
 * A link as a square code, drawn as one path. What draws it is loaded when there is a link.
 * @param onDrawn called once the code stands on the page
 */
export function QrCode({ link, label, onDrawn }: { link: string; label: string; onDrawn: () => void }) {
  const [drawn, setDrawn] = useState<{ size: number; path: string } | null>(null)
  useEffect(() => {
    let here = true
    void import('qrcode').then(({ create }) => {
      if (here) setDrawn(pathOf(create(link, { errorCorrectionLevel: 'M' }).modules))
    })
    return () => {
      here = false
    }
  }, [link])
  useEffect(() => {
    if (drawn) onDrawn()
  }, [drawn, onDrawn])
  if (!drawn) return <div className={css.code} />
  const side = drawn.size + 2 * QUIET
  return (
    <svg
      className={css.code}
      viewBox={`${-QUIET} ${-QUIET} ${side} ${side}`}
      role="img"
      aria-label={label}
      shapeRendering="crispEdges"
    >
      <rect className={css.paper} x={-QUIET} y={-QUIET} width={side} height={side} />
      <path className={css.modules} d={drawn.path} />
    </svg>
  )
}

function pathOf({ size, data }: { size: number; data: Uint8Array }): { size: number; path: string } {
  const path = Array.from(data, (dark, i) =>
    dark ? `M${i % size} ${Math.floor(i / size)}h1v1h-1z` : '',
  ).join('')
  return { size, path }
}
