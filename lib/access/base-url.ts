const LOOPBACK = /^(127(\.\d+){3}|localhost|\[::1\])$/

/**
 * Where people reach this server: OUTFLOW_URL, or else the loopback address and port that it listens on. Links in
 * letters are made from this alone, never from what a request claims its host to be.
 */
export function baseUrl(env: NodeJS.ProcessEnv = process.env): URL {
  return new URL(env.OUTFLOW_URL ?? `http://127.0.0.1:${env.PORT ?? '3000'}`)
}

/** Whether everything goes over TLS, so that a browser may be told to insist on it. */
export const isSecure = (env: NodeJS.ProcessEnv = process.env): boolean => baseUrl(env).protocol === 'https:'

/**
 * What is wrong with the address for real use, in words, or null. Sign-in cookies are `Secure`: over plain http
 * a browser keeps them for its own machine only.
 */
export function addressTrouble(env: NodeJS.ProcessEnv = process.env): string | null {
  const { protocol, hostname } = baseUrl(env)
  if (protocol === 'https:' || LOOPBACK.test(hostname)) return null
  return `OUTFLOW_URL is ${protocol}//${hostname}: nobody can sign in without TLS, since browsers keep the sign-in cookie only over https or on this machine.`
}
