import { useEffect } from 'react'

/**
 * Has the page and its parts kept on the phone, once it is open. A newer version that was fetched at an earlier visit
 * takes over when the page is opened, before anything is begun: never under a page that is in use.
 */
export function useWorker(isOpen: boolean, build: string): void {
  useEffect(() => {
    if (!isOpen || build === 'development' || !('serviceWorker' in navigator)) return
    void keepPage().catch(() => undefined) // a browser that refuses storage needs the network each time
  }, [isOpen, build])
}

async function keepPage(): Promise<void> {
  const workers = navigator.serviceWorker
  const { waiting } = await workers.register('/check-in/worker.js', {
    scope: '/check-in',
    updateViaCache: 'none',
  })
  if (!waiting) return
  workers.addEventListener('controllerchange', () => window.location.reload(), { once: true })
  waiting.postMessage('take-over')
}
