import { Refusal } from '@/lib/domain/problem.ts'
import { answer } from '@/lib/http/answer.ts'
import { openRoute } from '@/lib/http/open-route.ts'
import { sweepHealth, transportsSetUp } from '@/lib/worklist/index.ts'

/** 200 while the store answers and the sweep runs. `mail: files` and `textMessages: none` say that such reminders reach nobody. */
export const GET = openRoute(async () => {
  const { alive, lastAt, troubled } = await sweepHealth().catch(() => {
    throw new Refusal('unavailable', 'The store does not answer.')
  })
  if (!alive) throw new Refusal('unavailable', 'The sweep does not run.')
  const { mail, gateway } = transportsSetUp()
  return answer({ store: 'alive', sweep: 'alive', sweptAt: lastAt, troubled, mail, textMessages: gateway })
})
