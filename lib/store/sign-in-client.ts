import { prismaAdapter } from 'better-auth/adapters/prisma'
import { store, takeLock } from './client.ts'
import { connect, databaseUrl } from './connect.ts'
import type { Prisma, PrismaClient } from './generated/client.ts'

const READS = new Set([
  'findUnique',
  'findUniqueOrThrow',
  'findFirst',
  'findFirstOrThrow',
  'findMany',
  'count',
  'aggregate',
  'groupBy',
  'fields',
  'name',
])

type Delegate = Record<string, (...input: unknown[]) => Promise<unknown>>

const KEY = Symbol.for('outflow.store.sign-in')
const shared = globalThis as typeof globalThis & { [KEY]?: PrismaClient }

const inTurn = <T>(work: () => Promise<T>) => store().queue.exclusive('sign-in', async () => await work())

function queued(delegate: object): object {
  return new Proxy(delegate, {
    get(target, name) {
      const method = (target as Delegate)[name as string]
      if (typeof method !== 'function' || typeof name !== 'string' || READS.has(name)) return method
      return (...input: unknown[]) => inTurn(() => method.apply(target, input))
    },
  })
}

/**
 * The client behind the sign-in library's adapter: a connection of its own, whose writes wait in the
 * same queue as ours. Without that, a sign-in beside an open transaction would block the thread that must end it.
 */
function signInClient(): PrismaClient {
  shared[KEY] ??= new Proxy(connect(databaseUrl(), 'sign-in'), {
    get(target, name) {
      if (name === '$transaction')
        return (work: (tx: Prisma.TransactionClient) => Promise<unknown>) =>
          inTurn(() =>
            target.$transaction(async (tx) => {
              await takeLock(tx)
              return work(tx)
            }),
          )
      const value: unknown = Reflect.get(target, name)
      const isModel =
        typeof name === 'string' && !/^[$_]/.test(name) && typeof value === 'object' && value !== null
      return isModel ? queued(value) : value
    },
  })
  return shared[KEY]
}

/** The database as the sign-in library takes it. Its user table is our Staff (`user: { modelName: 'staff' }`). */
export const signInDatabase = () => prismaAdapter(signInClient(), { provider: 'sqlite' })

/** Closes that connection; the next call opens it again. */
export async function closeSignInClient(): Promise<void> {
  const open = shared[KEY]
  delete shared[KEY]
  await open?.$disconnect()
}
