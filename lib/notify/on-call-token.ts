import { createHmac } from 'node:crypto'

/**
 * The secret in the link of one message to the person on call, drawn from the server's own secret when the message
 * is sent: the outbox and a copy of the database hold none. The step of the message keeps its hash.
 */
export const onCallToken = (secret: string, stepId: string): string =>
  createHmac('sha256', secret).update(`on call\n${stepId}`).digest('base64url')
