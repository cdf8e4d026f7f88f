import { describe, expect, it, vi } from 'vitest'
import { endAllStreams, eventStream } from '../../lib/http/event-stream.ts'

const HEARTBEAT_MS = 20

function open(stillMay: () => Promise<boolean> = async () => true) {
  const browser = new AbortController()
  const ended = vi.fn()
  let send = (_event: string, _data: unknown) => {}
  const response = eventStream({
    follow: (how) => {
      send = how
      return ended
    },
    stillMay,
    signal: browser.signal,
    heartbeatMs: HEARTBEAT_MS,
  })
  const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader()
  if (!reader) throw new Error('no body')
  return { response, reader, browser, ended, send: (event: string, data: unknown) => send(event, data) }
}

async function restOf(reader: ReadableStreamDefaultReader<string>): Promise<string> {
  let text = ''
  for (;;) {
    const { done, value } = await reader.read()
    if (done) return text
    text += value
  }
}

describe('a stream of events', () => {
  it('is kept nowhere and held back by no proxy', () => {
    const { response, browser } = open()
    expect(Object.fromEntries(response.headers)).toMatchObject({
      'content-type': expect.stringContaining('text/event-stream'),
      'cache-control': 'no-store',
      'x-accel-buffering': 'no',
    })
    browser.abort()
  })

  it('tells what happens, and beats in between', async () => {
    const { reader, browser, send } = open()
    send('changed', { patientId: 'p1' })
    await new Promise((resolve) => setTimeout(resolve, 3 * HEARTBEAT_MS))
    browser.abort()
    const text = await restOf(reader)
    expect(text).toContain('retry: 2000\n\n')
    expect(text).toContain('event: changed\ndata: {"patientId":"p1"}\n\n')
    expect(text).toContain('event: beat\ndata:\n\n')
  })

  it('stops to listen when the browser has gone', async () => {
    const { browser, ended } = open()
    browser.abort()
    expect(ended).toHaveBeenCalledTimes(1)
  })

  it('ends when the server is told to stop', async () => {
    const [one, two] = [open(), open()]
    endAllStreams()
    await Promise.all([restOf(one.reader), restOf(two.reader)])
    expect([one.ended.mock.calls.length, two.ended.mock.calls.length]).toEqual([1, 1])
  })

  it('stops to listen when nobody reads', async () => {
    const { reader, ended } = open()
    await reader.cancel()
    await vi.waitFor(() => expect(ended).toHaveBeenCalledTimes(1))
  })

  it.each([
    ['no longer may', async () => false],
    ['cannot be asked about', async () => Promise.reject(new Error('no database'))],
  ])('ends for one who %s', async (_, stillMay) => {
    const { reader, ended } = open(stillMay)
    await restOf(reader)
    expect(ended).toHaveBeenCalledTimes(1)
  })

  it('for a browser that was gone before it began, ends at once', async () => {
    const follow = vi.fn(() => vi.fn())
    const response = eventStream({ follow, stillMay: async () => true, signal: AbortSignal.abort() })
    expect(await response.text()).toBe('retry: 2000\n\n')
  })
})
