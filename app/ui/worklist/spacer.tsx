'use client'

import { useLayoutEffect, useRef } from 'react'

/** The room of lines that are not drawn. Its height is set by script: the page allows no style in its markup. */
export function Spacer({ height, span }: { height: number; span: number }) {
  const cell = useRef<HTMLTableCellElement>(null)
  useLayoutEffect(() => {
    if (cell.current) cell.current.style.blockSize = `${height}px`
  }, [height])
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a row of no content takes no focus
    <tr aria-hidden="true" data-spacer>
      <td ref={cell} colSpan={span} />
    </tr>
  )
}
