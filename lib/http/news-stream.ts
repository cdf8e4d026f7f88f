import { withOurHeaders } from './answer.ts'

/**
 * Answers with a line of JSON for each value that `work` tells. Work goes on when the browser has gone: what was
 * begun is ended, and the next question finds it done.
 */
export function newsStream(work: (tell: (value: unknown) => void) => Promise<void>): Response {
  let isOpen = true
  const stream = new ReadableStream<Uint8Array>({
    async start(controller) {
      const text = new TextEncoder()
      await work((value) => {
        if (isOpen) controller.enqueue(text.encode(`${JSON.stringify(value)}\n`))
      })
      if (isOpen) controller.close()
    },
    cancel() {
      isOpen = false
    },
  })
  const headers = { 'Content-Type': 'application/x-ndjson; charset=utf-8', 'X-Accel-Buffering': 'no' }
  return withOurHeaders(new Response(stream, { headers }))
}
