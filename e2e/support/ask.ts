import { request } from 'node:http'
import { text } from 'node:stream/consumers'

export type Asked = { status: number; type: string | null; cookie: string; body: unknown }

/**
 * Asks one of the server's doors as a program would, each time on a connection of its own: one that is kept may be
 * closed by the server in the moment in which it is used again.
 */
export function ask(
  method: string,
  address: string,
  body?: unknown,
  headers: Readonly<Record<string, string>> = {},
): Promise<Asked> {
  return new Promise((resolve, reject) => {
    const asking = request(address, {
      method,
      agent: false,
      headers: { 'Content-Type': 'application/json', ...headers },
    })
    asking.on('error', reject)
    asking.on('response', async (answer) => {
      try {
        const said = await text(answer)
        resolve({
          status: answer.statusCode ?? 0,
          type: answer.headers['content-type'] ?? null,
          cookie: (answer.headers['set-cookie'] ?? []).map((set) => set.split(';')[0]).join('; '),
          body: said === '' ? null : JSON.parse(said),
        })
      } catch (error) {
        reject(error)
      }
    })
    asking.end(body === undefined ? undefined : JSON.stringify(body))
  })
}

/** The same, where only a good answer will do. */
export async function askWell(...asking: Parameters<typeof ask>): Promise<Asked> {
  const answer = await ask(...asking)
  if (answer.status < 200 || answer.status > 299)
    throw new Error(`${asking[0]} ${asking[1]}: ${answer.status} ${JSON.stringify(answer.body)}`)
  return answer
}
