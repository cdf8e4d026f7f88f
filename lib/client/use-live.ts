import { useQueryClient } from '@tanstack/react-query'
import { useEffect, useState } from 'react'

/** Whether changes of others reach this screen as they happen. */
export type Live = 'connecting' | 'live' | 'lost'

/** How long until a stream that the server refused or ended for good is asked for again. */
const AGAIN_MS = 10_000

/** Changes that come in a burst are answered by one reading. */
const GATHER_MS = 150

/**
 * Listens for changes in the clinic and reads again what is on screen. Whenever listening begins everything is
 * read again, at first too: what happened since the page was drawn, or in a break, was not heard.
 */
export function useLive(): Live {
  const client = useQueryClient()
  const [live, setLive] = useState<Live>('connecting')

  useEffect(() => {
    const changed = new Set<string>()
    let events: EventSource
    let timer: ReturnType<typeof setTimeout> | undefined
    let again: ReturnType<typeof setTimeout> | undefined

    const readAgain = () => {
      timer = undefined
      void client.invalidateQueries({ queryKey: ['worklist'] })
      for (const id of changed) void client.invalidateQueries({ queryKey: ['patient', id] })
      changed.clear()
    }
    const onChanged = (event: MessageEvent<string>) => {
      const id = patientOf(event.data)
      if (id) changed.add(id)
      timer ??= setTimeout(readAgain, GATHER_MS)
    }
    const onOpen = () => {
      setLive('live')
      void client.invalidateQueries()
    }
    const onError = () => {
      setLive('lost')
      // The browser tries again by itself, but not after an answer that is no stream.
      if (events.readyState === EventSource.CLOSED) again = setTimeout(listen, AGAIN_MS)
    }
    const listen = () => {
      events = new EventSource('/api/worklist/events')
      events.addEventListener('open', onOpen)
      events.addEventListener('error', onError)
      events.addEventListener('changed', onChanged)
    }
    listen()
    return () => {
      clearTimeout(timer)
      clearTimeout(again)
      events.close()
    }
  }, [client])

  return live
}

function patientOf(data: string): string | null {
  try {
    const value: unknown = JSON.parse(data)
    if (value === null || typeof value !== 'object' || !('patientId' in value)) return null
    return typeof value.patientId === 'string' ? value.patientId : null
  } catch {
    return null
  }
}
