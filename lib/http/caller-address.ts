/**
 * The address that a request comes from, for counting. Each proxy adds the address of whoever called it at the
 * right end of X-Forwarded-For; OUTFLOW_PROXIES says how many of ours stand in front, so that what a caller wrote there
 * itself is not believed. Without a proxy the server itself writes it.
 */
export function callerAddress(headers: Headers, proxies = Number(process.env.OUTFLOW_PROXIES ?? 0)): string {
  const hops = (headers.get('x-forwarded-for') ?? '').split(',').map((hop) => hop.trim())
  return hops.at(-Math.max(1, proxies)) || 'unknown'
}
