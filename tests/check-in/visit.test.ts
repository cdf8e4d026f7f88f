import { describe, expect, it } from 'vitest'
import type { Draft } from '../../app/check-in/answers/draft.ts'
import type { Answer } from '../../app/check-in/keep/doors.ts'
import type { Waiting } from '../../app/check-in/keep/keep.ts'
import { memoryKeep } from '../../app/check-in/keep/memory-keep.ts'
import type { Opened } from '../../app/check-in/visit/link.ts'
import { makeVisit } from '../../app/check-in/visit/visit.ts'
import type { CheckInView } from '../../lib/domain/check-in.ts'
import type { Receipt } from '../../lib/domain/submission.ts'
import { draftOf, kidney, now, viewOf } from './view.ts'

const problem = { type: 't', title: 'No', status: 400 }

/** A phone and a clinic of which each test says how they answer. */
function phone() {
  const keep = memoryKeep()
  const sent: Waiting[] = []
  let keys = 0
  const is = {
    byLink: null as string | null,
    link: 'ok' as Opened,
    view: { kind: 'ok', value: viewOf(kidney) } as Answer<CheckInView>,
    send: (report: Waiting): Answer<Receipt> => ({
      kind: 'ok',
      value: { receipt: `R-${report.key}`, report: report.key, receivedAt: now.toISOString(), advice: [] },
    }),
    left: { kind: 'ok', value: null } as Answer<unknown>,
    wiped: false,
  }
  const visit = makeVisit({
    openKeep: async () => keep,
    link: {
      take: async () => is.byLink !== null,
      hash: () => is.byLink,
      open: async () => is.link,
      canRenew: () => is.byLink !== null,
      renew: async () => {
        is.link = 'ok'
        return 'ok'
      },
      forget: () => {
        is.byLink = null
      },
    },
    readView: async () => is.view,
    send: async (report) => {
      sent.push(report)
      return is.send(report)
    },
    leave: async () => is.left,
    wipe: async () => {
      is.wiped = true
    },
    clock: { now: () => now, setBy: () => undefined },
    newKey: () => `made-${++keys}`,
  })
  const { actions: does, state } = visit
  return { keep, sent, is, does, state, phase: () => state().phase }
}

const offline = { kind: 'unreachable' } as const
const tube = (draft: Partial<Draft> = {}) => draftOf({ leak: 'no' }, draft)

describe('opening', () => {
  it('shows what the phone kept when the clinic cannot be reached, and says that it is old', async () => {
    const { keep, is, does, state, phase } = phone()
    await keep.keepView(viewOf(kidney), 'hash-1', now.toISOString())
    Object.assign(is, { byLink: 'hash-1', link: 'unreachable' })
    await does.open()
    expect(phase().name).toBe('form')
    expect(state()).toMatchObject({ stale: true, view: { patient: { id: 'p1' } } })
  })

  it('shows nobody for a link that the phone does not know, without the clinic', async () => {
    const { keep, is, does, phase } = phone()
    await keep.keepView(viewOf(kidney), 'hash-1', now.toISOString())
    Object.assign(is, { byLink: 'hash-2', link: 'unreachable' })
    await does.open()
    expect(phase()).toEqual({ name: 'unreachable', waits: 0 })
  })

  it('closes when the link is over, forgets what it showed, and keeps what waits until a code renews it', async () => {
    const { keep, sent, is, does, phase } = phone()
    await keep.keepView(viewOf(kidney), 'hash-1', now.toISOString())
    await keep.confirm({ key: 'k', person: 'p1', body: { note: 'n' }, confirmedAt: now.toISOString() })
    Object.assign(is, { byLink: 'hash-1', link: 'link-ended' })
    await does.open()
    expect(phase()).toEqual({ name: 'closed', renewable: true, waits: 1 })
    expect(await keep.currentView()).toBeUndefined()
    expect(await does.renew('1234 5678')).toBe('ok')
    expect(sent.map(({ key }) => key)).toEqual(['k'])
    expect(phase().name).toBe('receipt')
  })

  it('never puts another person’s page under a form that is open', async () => {
    const { is, does, state } = phone()
    await does.open()
    const view = viewOf(kidney)
    is.view = { kind: 'ok', value: { ...view, patient: { ...view.patient, id: 'p2', firstName: 'Ada' } } }
    await does.refresh()
    expect(state().view?.patient.id).toBe('p1')
  })
})

describe('what waits', () => {
  it('goes by itself while another form is open, and is told as news', async () => {
    const { is, sent, does, state, phase } = phone()
    await does.open()
    is.view = offline
    is.send = () => offline
    await does.send(viewOf(kidney), tube())
    expect(phase()).toMatchObject({ name: 'waiting', why: 'unreachable' })
    await does.another()
    expect(phase().name).toBe('form')
    Object.assign(is, { view: phone().is.view, send: phone().is.send })
    await does.tryAgain()
    expect(phase().name).toBe('form')
    expect(state()).toMatchObject({ waits: [], stale: false, news: { receipt: { receipt: 'R-key-1' } } })
    expect(sent.map(({ key }) => key)).toEqual(['key-1', 'key-1'])
  })

  it('opens as a form again where the clinic refused it, under another key', async () => {
    const { keep, is, does, phase } = phone()
    await does.open()
    is.send = () => ({ kind: 'refused', problem })
    await does.send(viewOf(kidney), tube())
    expect(phase()).toMatchObject({ name: 'form', refused: { problem }, draft: { key: 'made-2' } })
    expect(await keep.waitingOf('p1')).toEqual([])
  })

  it('stays in the list where it was refused and something else is being written', async () => {
    const { keep, is, does, phase, state } = phone()
    await does.open()
    is.send = () => ({ kind: 'refused', problem })
    await does.saveDraft(tube())
    await does.send(viewOf(kidney), tube({ key: 'k' }))
    expect(phase()).toMatchObject({ name: 'waiting', why: 'refused' })
    expect(state().waits).toMatchObject([{ key: 'k', problem }])
    expect((await keep.draftOf('p1'))?.key).toBe('key-1')
  })

  it('is changed as a further report that corrects it by its key', async () => {
    const { is, does, phase, state, sent } = phone()
    await does.open()
    is.send = () => offline
    await does.send(viewOf(kidney), tube())
    const [waiting] = state().waits
    if (waiting) await does.change(waiting)
    const { draft } = phase() as { draft: Draft }
    expect(draft).toMatchObject({ step: 'check', supersedesKey: 'key-1', key: 'made-2' })
    is.send = phone().is.send
    await does.send(viewOf(kidney), draft)
    expect(sent.slice(-2).map(({ key, body }) => [key, body.supersedesKey])).toEqual([
      ['key-1', undefined],
      ['made-2', 'key-1'],
    ])
  })
})

describe('a form that was left for a moment', () => {
  it('goes on with all that was answered since it was first shown', async () => {
    const { does, phase } = phone()
    await does.open()
    const { draft } = phase() as { draft: Draft }
    await does.saveDraft({ ...draft, pain: 4 })
    await does.askToForget()
    const asked = phase()
    if (asked.name === 'forget') await does.back(asked.back)
    expect(phase()).toMatchObject({ name: 'form', draft: { key: draft.key, pain: 4 } })
  })
})

describe('a danger', () => {
  it('is told at once under a key of its own; the whole report corrects it', async () => {
    const { keep, sent, does, phase } = phone()
    await does.open()
    const begun = tube()
    const dangerSentKey = does.sendDanger(viewOf(kidney), begun)
    await expect.poll(() => sent.length).toBe(1)
    expect(sent[0]).toMatchObject({ key: dangerSentKey, body: { symptoms: { drains: [{ leak: false }] } } })
    expect(await keep.draftOf('p1'), 'kept in the same step').toMatchObject({ key: 'key-1', dangerSentKey })
    await does.send(viewOf(kidney), { ...begun, dangerSentKey, pain: 3 })
    expect(sent[1]).toMatchObject({ key: 'key-1', body: { supersedesKey: dangerSentKey } })
    expect(phase().name).toBe('receipt')
  })

  it('is the report where nothing was added to it', async () => {
    const { sent, does, phase } = phone()
    await does.open()
    const begun = tube({ feltAt: now.toISOString() })
    const dangerSentKey = does.sendDanger(viewOf(kidney), begun)
    await expect.poll(() => sent.length).toBe(1)
    await does.send(viewOf(kidney), { ...begun, dangerSentKey })
    expect(sent).toHaveLength(1)
    expect(phase()).toMatchObject({ name: 'receipt', receipt: { receipt: `R-${dangerSentKey}` } })
  })
})

describe('forgetting', () => {
  it('is not done by half: without the network nothing goes', async () => {
    const { keep, is, does, phase } = phone()
    await does.open()
    is.left = offline
    await does.askToForget()
    await does.forget()
    expect(phase()).toMatchObject({ name: 'forget', failed: true })
    expect(await keep.currentView()).toBeDefined()
    is.left = { kind: 'link-ended' }
    await does.forget()
    expect(phase()).toEqual({ name: 'forgotten' })
    expect([is.wiped, await keep.currentView()]).toEqual([true, undefined])
  })
})
