/**
 * The body of a request. Counted while it is read, so that no more than the limit is ever held, whatever the
 * request says of its length.
 * @param tooLarge makes the error for a body over the limit
 */
export async function readBytes(
  request: Request,
  maxBytes: number,
  tooLarge: () => Error,
): Promise<Uint8Array> {
  if (Number(request.headers.get('content-length')) > maxBytes) throw tooLarge()
  const pieces: Uint8Array[] = []
  let bytes = 0
  for (const reader = request.body?.getReader(); reader; ) {
    const { done, value } = await reader.read()
    if (done) break
    bytes += value.byteLength
    if (bytes > maxBytes) {
      await reader.cancel().catch(() => undefined)
      throw tooLarge()
    }
    pieces.push(value)
  }
  return Buffer.concat(pieces)
}
