import { withOurHeaders } from './answer.ts'

/** A browser that hears nothing for a good deal longer than this knows that it has lost the server. */
export const HEARTBEAT_MS = 3_000
/** At every third beat it is looked at again whether the one who listens still may. */
const BEATS_PER_CHECK = 3

const KEY = Symbol.for('outflow.streams')
const shared = globalThis as typeof globalThis & { [KEY]?: Set<() => void> }

/** The open streams of this process, each as what ends it. On globalThis: a server bundles this file more than once. */
function openStreams(): Set<() => void> {
  shared[KEY] ??= new Set()
  return shared[KEY]
}

/** Ends every open stream: a server that is told to stop would else wait for browsers that never leave. */
export function endAllStreams(): void {
  for (const end of openStreams()) end()
}

export type EventSource = {
  /** Starts to hear; what it returns ends that. */
  follow: (send: (event: string, data: unknown) => void) => () => void
  /** Asked at every third heartbeat: whether the one who listens still may. */
  stillMay: () => Promise<boolean>
  /** Aborts when the browser has gone. */
  signal: AbortSignal
  heartbeatMs?: number
}

/**
 * Server-sent events. A `beat` every 3 s tells the browser that the server is there (a comment would not reach
 * its script), keeps proxies from closing a quiet stream and shows the server that a browser has gone.
 */
export function eventStream({ follow, stillMay, signal, heartbeatMs = HEARTBEAT_MS }: EventSource): Response {
  let end = () => {}
  const stream = new ReadableStream<Uint8Array>({
    start(controller) {
      const text = new TextEncoder()
      const write = (line: string) => controller.enqueue(text.encode(line))
      const unfollow = follow((event, data) => write(`event: ${event}\ndata: ${JSON.stringify(data)}\n\n`))
      let over = false
      let beats = 0
      const beat = setInterval(async () => {
        beats += 1
        if (beats % BEATS_PER_CHECK === 0 && !(await stillMay().catch(() => false))) end()
        if (!over) write('event: beat\ndata:\n\n')
      }, heartbeatMs)
      end = () => {
        if (over) return
        over = true
        openStreams().delete(end)
        clearInterval(beat)
        unfollow()
        signal.removeEventListener('abort', end)
        try {
          controller.close()
        } catch {
          // the browser's side has closed it already
        }
      }
      openStreams().add(end)
      signal.addEventListener('abort', end)
      write('retry: 2000\n\n')
      if (signal.aborted) end()
    },
    cancel: () => end(),
  })
  const headers = { 'Content-Type': 'text/event-stream; charset=utf-8', 'X-Accel-Buffering': 'no' }
  return withOurHeaders(new Response(stream, { headers }))
}
