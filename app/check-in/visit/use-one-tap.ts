import { useEffect } from 'react'

/**
 * A double tap counts once. The second tap of it would land on whatever the next screen has at that place:
 * an answer that nobody gave, or the end of a receipt that nobody read.
 */
export function useOneTap(): void {
  useEffect(() => {
    const once = (event: MouseEvent) => {
      if (event.detail < 2) return
      event.preventDefault()
      event.stopPropagation()
    }
    // On the window, so that it comes before the page's own listeners.
    window.addEventListener('click', once, true)
    return () => window.removeEventListener('click', once, true)
  }, [])
}
