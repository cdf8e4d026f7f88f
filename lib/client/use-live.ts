import { useQueryClient } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { browserNow } from './browser-clock.ts'
import { isSilent, type Live } from './silence.ts'

export type { Live } from './silence.ts'

/** How long until a stream that was refused, ended or fell silent is asked for again. */
const AGAIN_MS = 2_000
const LOOK_MS = 1_000

/**
 * Changes that come in a burst are answered by one reading. The longer a reading takes, the longer changes gather:
 * a list of thousands that is read all the time could not be worked with.
 */
const GATHER_MS = 150
const MOST_MS = 8_000
const REST = 4

/**
 * Listens for changes in the clinic and reads again what is on screen. Whenever listening begins everything is
 * read again, at first too: what happened since the page was drawn, or in a break, was not heard. A stream that
 * falls silent counts as lost although it looks open, and is opened anew.
 */
export function useLive(): Live {
  const client = useQueryClient()
  const [live, setLive] = useState<Live>({ state: 'connecting', heardMs: null })

  useEffect(() => {
    const nowMs = () => browserNow().getTime()
    const changed = new Set<string>()
    let events: EventSource
    let timer: ReturnType<typeof setTimeout> | undefined
    let again: ReturnType<typeof setTimeout> | undefined
    let heardMs: number | null = null
    let openedMs = nowMs()

    let gatherMs = GATHER_MS
    let isReading = false
    let hasMore = false
    /** One reading at a time: a further one would break off the first, and of a long list none would end. */
    const readAgain = async () => {
      timer = undefined
      hasMore = isReading
      if (isReading) return
      isReading = true
      const from = nowMs()
      for (const id of changed) void client.invalidateQueries({ queryKey: ['patient', id] })
      changed.clear()
      await client.invalidateQueries({ queryKey: ['worklist'] })
      isReading = false
      gatherMs = Math.min(MOST_MS, Math.max(GATHER_MS, REST * (nowMs() - from)))
      if (hasMore) timer ??= setTimeout(readAgain, gatherMs)
    }
    const onChanged = (event: MessageEvent<string>) => {
      heardMs = nowMs()
      const id = patientOf(event.data)
      if (id) changed.add(id)
      timer ??= setTimeout(readAgain, gatherMs)
    }
    const onBeat = () => {
      heardMs = nowMs()
    }
    const onOpen = () => {
      heardMs = nowMs()
      setLive({ state: 'live', heardMs })
      void client.invalidateQueries()
    }
    const lost = () => setLive((was) => (was.state === 'lost' ? was : { state: 'lost', heardMs }))
    const onError = () => {
      lost()
      // The browser tries again by itself, but not after an answer that is no stream.
      if (events.readyState === EventSource.CLOSED) again ??= setTimeout(listen, AGAIN_MS)
    }
    const listen = () => {
      again = undefined
      openedMs = nowMs()
      events = new EventSource('/api/worklist/events')
      events.addEventListener('open', onOpen)
      events.addEventListener('error', onError)
      events.addEventListener('changed', onChanged)
      events.addEventListener('beat', onBeat)
    }
    const giveUp = () => {
      lost()
      events.close()
      again ??= setTimeout(listen, AGAIN_MS)
    }
    const look = setInterval(() => {
      if (!again && isSilent(heardMs, openedMs, nowMs())) giveUp()
    }, LOOK_MS)
    window.addEventListener('offline', giveUp)
    listen()
    return () => {
      window.removeEventListener('offline', giveUp)
      clearInterval(look)
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
