import { NotToBeSent } from './held-back.ts'
import { mailFiles, mailServer } from './mail.ts'
import { webhookTrouble } from './set-up.ts'
import { webhook } from './webhook.ts'

/** What is handed on. `id` is the same in every repeat; `language` is that of the text. */
export type Message = {
  id: string
  to: string
  subject: string
  text: string
  language?: string
  /** What it is, for the gateway; a reminder where it says nothing. */
  type?: 'on-call'
  /** Where a mail program may stop such messages by itself. */
  stopAddress?: string
}

/** Hands a message on; when it resolves, the message is out of our hands. */
export type Transport = { name: string; send: (message: Message, signal: AbortSignal) => Promise<void> }

/** The two ways out: mail, and the clinic's own gateway for text messages. */
export type Transports = { mail: Transport; gateway: Transport }

/**
 * Mail goes by SMTP where SMTP_URL says so, else one .eml file a letter lands beside the database: nothing leaves
 * the machine unless somebody decided that it does. Text messages go by the webhook, or nowhere.
 */
export function transportsFrom(env: NodeJS.ProcessEnv = process.env): Transports {
  const from = env.OUTFLOW_MAIL_FROM ?? 'Outflow Round <no-reply@localhost>'
  const trouble = webhookTrouble(env)
  return {
    mail: env.SMTP_URL ? mailServer(env.SMTP_URL, from) : mailFiles(env, from),
    gateway: trouble === null ? webhook(env) : nowhere(trouble),
  }
}

const nowhere = (why: string): Transport => ({
  name: 'none',
  send: async () => {
    throw new NotToBeSent(why)
  },
})
