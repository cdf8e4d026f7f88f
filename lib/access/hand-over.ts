import { APIError } from 'better-auth'
import { auth } from './auth.ts'

/**
 * Hands a request, with a body that was checked, to the sign-in library. What the library refuses is an answer;
 * what breaks within it is thrown, so that nobody takes a broken server for a wrong password.
 */
export async function handOver(request: Request, body: unknown): Promise<Response> {
  const headers = new Headers(request.headers)
  headers.set('content-type', 'application/json')
  headers.delete('content-length')
  try {
    return await auth().handler(
      new Request(request.url, { method: 'POST', headers, body: JSON.stringify(body) }),
    )
  } catch (error) {
    if (error instanceof APIError && error.statusCode < 500)
      return new Response(null, { status: error.statusCode })
    throw error
  }
}
