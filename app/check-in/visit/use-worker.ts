import { useEffect } from 'react'
import { fetchAfter, fetchLater } from '../screens/later.ts'

/**
 * Has the page and its parts kept on the phone, once it is open. A newer version that was fetched at an earlier visit
 * takes over when the page is opened, before anything is begun: never under a page that is in use.
 */
export function useWorker(isOpen: boolean, build: string): void {
  useEffect(() => {
    if (!isOpen) return
    // A browser without workers, or one that refuses storage, needs the network each time; within the visit it does
    // without, once all screens are there.
    const fetchScreens = () => Promise.all([fetchLater(), fetchAfter()])
    if (build === 'development' || !('serviceWorker' in navigator)) void fetchScreens()
    else void keepPage().catch(fetchScreens)
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
