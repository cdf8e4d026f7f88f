const LOCAL = /^(127(\.\d+){3}|localhost|\[::1\])$/
/** As the specification asks: 24 to 64 bytes. */
const SHORTEST = 24

/** Why text messages go nowhere, in words; null where they go to the clinic's gateway. */
export function webhookTrouble(env: NodeJS.ProcessEnv = process.env): string | null {
  const { OUTFLOW_WEBHOOK_URL: url, OUTFLOW_WEBHOOK_SECRET: secret } = env
  if (!url) return 'no gateway for text messages is set up: OUTFLOW_WEBHOOK_URL is not set'
  if (!URL.canParse(url)) return 'OUTFLOW_WEBHOOK_URL is no address'
  const { protocol, hostname } = new URL(url)
  if (protocol !== 'https:' && !(protocol === 'http:' && LOCAL.test(hostname)))
    return 'OUTFLOW_WEBHOOK_URL is not https: it carries phone numbers'
  const bytes = Buffer.from((secret ?? '').replace(/^whsec_/, ''), 'base64')
  return bytes.length < SHORTEST
    ? `OUTFLOW_WEBHOOK_SECRET has ${bytes.length} bytes; accepted: whsec_ and at least ${SHORTEST} bytes in base64`
    : null
}

export type TransportsSetUp = {
  /** `files`: nobody gets them. */
  mail: 'smtp' | 'files'
  gateway: 'webhook' | 'none'
  /** Why text messages go nowhere; null where they do not. */
  gatewayTrouble: string | null
}

/** Which ways out are set up, for whoever decides on a patient's reminders. */
export function transportsSetUp(env: NodeJS.ProcessEnv = process.env): TransportsSetUp {
  const gatewayTrouble = webhookTrouble(env)
  return {
    mail: env.SMTP_URL ? 'smtp' : 'files',
    gateway: gatewayTrouble === null ? 'webhook' : 'none',
    gatewayTrouble,
  }
}
