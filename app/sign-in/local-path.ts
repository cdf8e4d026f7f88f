/** Where to go after sign-in: a path of this server, never an address that somebody wrote into a link. */
export function localPath(next: unknown): string {
  if (typeof next !== 'string' || !/^\/(?![/\\])/.test(next)) return '/'
  const here = 'http://here.invalid'
  if (!URL.canParse(next, here)) return '/'
  const { origin, pathname, search } = new URL(next, here)
  return origin === here && !pathname.startsWith('//') ? `${pathname}${search}` : '/'
}
