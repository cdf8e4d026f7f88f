import { Refusal } from '@/lib/domain/problem.ts'
import { answer } from '@/lib/http/answer.ts'
import { openRoute } from '@/lib/http/open-route.ts'
import { serverHealth, transportsSetUp } from '@/lib/worklist/index.ts'

/**
 * 200 while the store answers, the sweep runs, letters go out and escalations are looked after. `mail: files` and
 * `textMessages: none` say that such messages reach nobody.
 */
export const GET = openRoute(async () => {
  const { alive, lastAt, troubled, troubles } = await serverHealth().catch(() => {
    throw new Refusal('unavailable', 'The store does not answer.')
  })
  if (!alive) throw new Refusal('unavailable', 'The sweep does not run.')
  if (troubles.length > 0) throw new Refusal('unavailable', troubles.map(({ says }) => says).join(' '))
  const { mail, gateway } = transportsSetUp()
  return answer({
    store: 'alive',
    sweep: 'alive',
    outbox: 'alive',
    escalations: 'alive',
    sweptAt: lastAt,
    troubled,
    mail,
    textMessages: gateway,
  })
})
