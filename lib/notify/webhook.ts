import { Webhook } from 'standardwebhooks'
import { now } from '../clock.ts'
import { NotToBeSent } from './held-back.ts'
import type { Transport } from './transport.ts'

/**
 * The clinic's own gateway for text messages, by a signed webhook after the Standard Webhooks specification: the
 * gateway tells from the signature that it was us, from the timestamp that it is no old one, and from the id
 * that it is a repeat. A redirect is not followed: it would carry a phone number to somebody else.
 */
export function webhook(env: NodeJS.ProcessEnv): Transport {
  const url = env.OUTFLOW_WEBHOOK_URL ?? ''
  const signer = new Webhook(env.OUTFLOW_WEBHOOK_SECRET ?? '')
  let isGone = false
  return {
    name: 'webhook',
    send: async ({ id, to, language, text, type = 'reminder' }, signal) => {
      if (isGone) throw gone()
      const body = JSON.stringify({ type, to, language, text })
      const at = now()
      const answer = await fetch(url, {
        method: 'POST',
        redirect: 'manual',
        signal,
        headers: {
          'content-type': 'application/json',
          'webhook-id': id,
          'webhook-timestamp': String(Math.floor(at.getTime() / 1000)),
          'webhook-signature': signer.sign(id, at, body),
        },
        body,
      })
      await answer.body?.cancel()
      if (answer.status === 410) {
        isGone = true
        throw gone()
      }
      if (!answer.ok) throw new Error(`the gateway answered ${answer.status}`)
    },
  }
}

/** 410 says that nothing more is to be sent there; what is set up then has to be set right, and the server started anew. */
const gone = () =>
  new NotToBeSent('the gateway answered 410, gone: nothing is sent there until the server is started anew')
