import { describe, expect, it } from 'vitest'
import { deliver } from '../../app/check-in/keep/deliver.ts'
import type { Answer } from '../../app/check-in/keep/doors.ts'
import type { Waiting } from '../../app/check-in/keep/keep.ts'
import { memoryKeep } from '../../app/check-in/keep/memory-keep.ts'
import type { Receipt } from '../../lib/domain/submission.ts'
import { draftOf } from './view.ts'

const report = (key: string, person = 'p1', confirmedAt = '2026-03-03T15:00:00.000Z'): Waiting => ({
  key,
  person,
  body: { note: key },
  confirmedAt,
})
const ok = ({ key }: Waiting): Answer<Receipt> => ({
  kind: 'ok',
  value: { receipt: `R-${key}`, report: key, receivedAt: '2026-03-03T15:01:00.000Z', advice: [] },
})
const door = (...answers: ((report: Waiting) => Answer<Receipt>)[]) => {
  const keys: string[] = []
  return {
    keys,
    send: async (sent: Waiting) => {
      keys.push(sent.key)
      return (answers.shift() ?? ok)(sent)
    },
  }
}
const unreachable = (): Answer<Receipt> => ({ kind: 'unreachable' })
const newKey = () => 'another-key'

describe('a confirmed report', () => {
  it('is sent, and then forgotten but for its receipt number', async () => {
    const keep = memoryKeep()
    await keep.saveDraft(draftOf({ leak: 'yes' }))
    await keep.confirm(report('key-1'))
    const { send } = door()
    expect(await deliver(keep, 'p1', send, newKey)).toMatchObject({
      kind: 'received',
      receipt: { receipt: 'R-key-1' },
    })
    expect(await keep.draftOf('p1')).toBeUndefined()
    expect(await keep.waitingOf('p1')).toEqual([])
    expect(await keep.sentBy('p1')).toMatchObject({ key: 'key-1', receipt: 'R-key-1' })
  })

  it('waits without a network and goes later under the same key', async () => {
    const keep = memoryKeep()
    await keep.confirm(report('key-1'))
    const { keys, send } = door(unreachable, unreachable)
    expect((await deliver(keep, 'p1', send, newKey)).kind).toBe('unreachable')
    expect((await deliver(keep, 'p1', send, newKey)).kind).toBe('unreachable')
    expect((await deliver(keep, 'p1', send, newKey)).kind).toBe('received')
    expect(keys).toEqual(['key-1', 'key-1', 'key-1'])
  })

  it('waits when the link is over, and nothing of it is lost', async () => {
    const keep = memoryKeep()
    await keep.saveDraft(draftOf({ leak: 'yes' }))
    await keep.confirm(report('key-1'))
    expect((await deliver(keep, 'p1', async () => ({ kind: 'link-ended' }), newKey)).kind).toBe('link-ended')
    expect(await keep.waitingOf('p1')).toHaveLength(1)
    expect(await keep.draftOf('p1')).toBeDefined()
  })

  it('is given back to be changed, under a new key, when the clinic refuses it', async () => {
    const keep = memoryKeep()
    await keep.saveDraft(draftOf({ leak: 'yes' }))
    await keep.confirm(report('key-1'))
    const refused = async (): Promise<Answer<Receipt>> => ({
      kind: 'refused',
      problem: { type: 't', title: 'No', status: 400 },
    })
    expect((await deliver(keep, 'p1', refused, newKey)).kind).toBe('refused')
    expect(await keep.waitingOf('p1')).toEqual([])
    expect((await keep.draftOf('p1'))?.key).toBe('another-key')
  })

  it('goes in order, each once, and stops where the network does', async () => {
    const keep = memoryKeep()
    await keep.confirm(report('second', 'p1', '2026-03-03T16:00:00.000Z'))
    await keep.confirm(report('first', 'p1', '2026-03-03T15:00:00.000Z'))
    const { keys, send } = door(ok, unreachable)
    expect((await deliver(keep, 'p1', send, newKey)).kind).toBe('unreachable')
    expect(keys).toEqual(['first', 'second'])
    await deliver(keep, 'p1', send, newKey)
    expect(keys).toEqual(['first', 'second', 'second'])
    expect((await deliver(keep, 'p1', send, newKey)).kind).toBe('nothing-waits')
  })

  it('is never sent in the session of somebody else', async () => {
    const keep = memoryKeep()
    await keep.confirm(report('key-1', 'p2'))
    const { keys, send } = door()
    expect((await deliver(keep, 'p1', send, newKey)).kind).toBe('nothing-waits')
    expect(keys).toEqual([])
    expect(await keep.countWaiting()).toBe(1)
  })

  it('is one report from two tabs', async () => {
    const keep = memoryKeep()
    expect(await keep.confirm(report('key-1'))).toBe('kept')
    expect(await keep.confirm(report('key-1'))).toBe('waits-already')
    const { keys, send } = door()
    await deliver(keep, 'p1', send, newKey)
    expect(await keep.confirm(report('key-1'))).toBe('sent-already')
    await keep.saveDraft(draftOf({ leak: 'yes' })) // the second tab's last change
    expect(await keep.draftOf('p1')).toBeUndefined()
    await deliver(keep, 'p1', send, newKey)
    expect(keys).toEqual(['key-1'])
  })
})
