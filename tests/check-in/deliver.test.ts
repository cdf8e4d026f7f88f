import { describe, expect, it } from 'vitest'
import { deliver } from '../../app/check-in/keep/deliver.ts'
import type { Answer } from '../../app/check-in/keep/doors.ts'
import type { Waiting } from '../../app/check-in/keep/keep.ts'
import { memoryKeep, memoryKeepFrom } from '../../app/check-in/keep/memory-keep.ts'
import type { Receipt } from '../../lib/domain/submission.ts'
import { draftOf, kidney, viewOf } from './view.ts'

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
const problem = { type: 't', title: 'No', status: 400 }
const refused = (): Answer<Receipt> => ({ kind: 'refused', problem })

describe('a confirmed report', () => {
  it('is sent, and then forgotten but for its receipt number', async () => {
    const keep = memoryKeep()
    await keep.saveDraft(draftOf({ leak: 'yes' }))
    await keep.confirm(report('key-1'))
    const { send } = door()
    expect((await deliver(keep, 'p1', send)).received).toMatchObject([{ receipt: { receipt: 'R-key-1' } }])
    expect(await keep.draftOf('p1')).toBeUndefined()
    expect(await keep.waitingOf('p1')).toEqual([])
    expect(await keep.sentBy('p1')).toMatchObject({ key: 'key-1', receipt: 'R-key-1' })
  })

  it('waits without a network and goes later under the same key', async () => {
    const keep = memoryKeep()
    await keep.confirm(report('key-1'))
    const { keys, send } = door(unreachable, unreachable)
    expect((await deliver(keep, 'p1', send)).stopped?.why).toBe('unreachable')
    expect((await deliver(keep, 'p1', send)).stopped?.why).toBe('unreachable')
    expect((await deliver(keep, 'p1', send)).stopped).toBeNull()
    expect(keys).toEqual(['key-1', 'key-1', 'key-1'])
  })

  it('waits when the link is over, and nothing of it is lost', async () => {
    const keep = memoryKeep()
    await keep.confirm({ ...report('key-1'), draft: draftOf({ leak: 'yes' }) })
    const { stopped } = await deliver(keep, 'p1', async () => ({ kind: 'link-ended' }))
    expect(stopped?.why).toBe('link-ended')
    expect(await keep.waitingOf('p1')).toMatchObject([{ key: 'key-1', draft: { key: 'key-1' } }])
  })

  it('is set aside with the reason when the clinic refuses it, and does not hold up those behind it', async () => {
    const keep = memoryKeep()
    await keep.confirm(report('bad'))
    await keep.confirm(report('good'))
    const { keys, send } = door(refused)
    const delivery = await deliver(keep, 'p1', send)
    expect(delivery).toMatchObject({
      refused: [{ report: { key: 'bad' }, problem }],
      received: [{ report: { key: 'good' } }],
      stopped: null,
    })
    expect(await keep.waitingOf('p1')).toMatchObject([{ key: 'bad', problem }])
    await deliver(keep, 'p1', send)
    expect(keys, 'it waits for its person, not for the network').toEqual(['bad', 'good'])
    await keep.takeBack(report('bad'), { ...draftOf({ leak: 'yes' }), key: 'another' })
    expect(await keep.waitingOf('p1')).toEqual([])
    expect((await keep.draftOf('p1'))?.key).toBe('another')
  })

  it('corrects what a refused one would have corrected', async () => {
    const keep = memoryKeep()
    await keep.confirm({ ...report('bad'), body: { note: 'bad', supersedes: 'r1' } })
    await keep.confirm({ ...report('good'), body: { note: 'good', supersedesKey: 'bad' } })
    const bodies: object[] = []
    await deliver(keep, 'p1', async (sent) => {
      bodies.push(sent.body)
      return sent.key === 'bad' ? refused() : ok(sent)
    })
    expect(bodies[1]).toEqual({ note: 'good', supersedes: 'r1' })
  })

  it('goes in the order in which it was confirmed, whatever the clock said, and stops where the network does', async () => {
    const keep = memoryKeep()
    await keep.confirm(report('first', 'p1', '2026-03-03T16:00:00.000Z'))
    await keep.confirm(report('second', 'p1', '2026-03-03T15:00:00.000Z'))
    const { keys, send } = door(ok, unreachable)
    expect(await deliver(keep, 'p1', send)).toMatchObject({
      received: [{ report: { key: 'first' } }],
      stopped: { report: { key: 'second' }, why: 'unreachable' },
    })
    await deliver(keep, 'p1', send)
    expect(keys).toEqual(['first', 'second', 'second'])
    expect(await deliver(keep, 'p1', send)).toEqual({ received: [], refused: [], stopped: null })
  })

  it('takes along what is confirmed while the line is being sent', async () => {
    const keep = memoryKeep()
    await keep.confirm(report('first'))
    const { keys, send } = door((sent) => {
      void keep.confirm(report('late'))
      return ok(sent)
    })
    await deliver(keep, 'p1', send)
    expect(keys).toEqual(['first', 'late'])
  })

  it('is never sent in the session of somebody else', async () => {
    const keep = memoryKeep()
    await keep.confirm(report('key-1', 'p2'))
    const { keys, send } = door()
    await deliver(keep, 'p1', send)
    expect(keys).toEqual([])
    expect(await keep.allWaiting()).toHaveLength(1)
  })

  it('is one report from two tabs', async () => {
    const keep = memoryKeep()
    expect(await keep.confirm(report('key-1'))).toBe('kept')
    expect(await keep.confirm(report('key-1'))).toBe('waits-already')
    const { keys, send } = door()
    await deliver(keep, 'p1', send)
    await keep.confirm(report('key-2'))
    await deliver(keep, 'p1', send)
    expect(await keep.confirm(report('key-1')), 'though another went since').toBe('sent-already')
    await keep.saveDraft(draftOf({ leak: 'yes' })) // the second tab's last change
    expect(await keep.draftOf('p1')).toBeUndefined()
    await deliver(keep, 'p1', send)
    expect(keys).toEqual(['key-1', 'key-2'])
  })
})

describe('what the clinic showed', () => {
  it('is found by a link of its person, and by nobody else’s', async () => {
    const keep = memoryKeep()
    const view = viewOf(kidney)
    await keep.keepView(view, 'hash-1', '2026-03-03T15:00:00.000Z')
    await keep.keepView(view, 'hash-2', '2026-03-03T16:00:00.000Z')
    await keep.keepView(view, null, '2026-03-03T17:00:00.000Z')
    const other = { ...view, patient: { ...view.patient, id: 'p2' } }
    await keep.keepView(other, 'hash-3', '2026-03-03T16:30:00.000Z')
    expect((await keep.viewByLink('hash-1'))?.person).toBe('p1')
    expect((await keep.viewByLink('hash-3'))?.person).toBe('p2')
    expect(await keep.viewByLink('hash-4')).toBeUndefined()
    expect((await keep.currentView())?.person, 'whose session the browser holds').toBe('p1')
  })

  it('goes when the link is over, and what waits stays', async () => {
    const keep = memoryKeep()
    await keep.keepView(viewOf(kidney), 'hash-1', '2026-03-03T15:00:00.000Z')
    await keep.confirm(report('key-1'))
    await keep.endView('p1')
    expect(await keep.viewByLink('hash-1')).toBeUndefined()
    expect(await keep.waitingOf('p1')).toHaveLength(1)
    await keep.forget()
    expect(await keep.allWaiting()).toEqual([])
  })

  it('goes on in memory with what a disk could still read', async () => {
    const disk = memoryKeep()
    await disk.keepView(viewOf(kidney), 'hash-1', '2026-03-03T15:00:00.000Z')
    await disk.confirm(report('key-1'))
    const keep = await memoryKeepFrom(disk)
    expect(keep.lasting).toBe(false)
    expect(await keep.waitingOf('p1')).toHaveLength(1)
    expect((await keep.viewByLink('hash-1'))?.person).toBe('p1')
  })
})
