/** @typedef {import('./demo.mjs').Demo} Demo */

/**
 * What `npm start` prints once the server answers.
 * @param {{ address: import('./server.mjs').Address, demo: Demo | null, data: string, seconds: number }} facts
 */
export function welcome({ address, demo, data, seconds }) {
  return [
    '',
    `The worklist is at ${address.url}   (ready after ${seconds} s; Ctrl-C stops it)`,
    `The data lies in ${data}`,
    ...exposure(address),
    '',
    ...(demo ? aboutDemo(demo, address) : firstSteps),
    '',
  ].join('\n')
}

/** @param {Demo} demo @param {import('./server.mjs').Address} address */
function aboutDemo({ signIns, patientLink }, { url }) {
  const link = /^https?:/.test(patientLink) ? new URL(patientLink) : new URL(patientLink, url)
  return [
    'This is the demo scenario: an invented clinic and invented people. Sign in as one of them:',
    ...signIns.map(({ role, email, password }) => `  ${role.padEnd(14)} ${email.padEnd(30)} ${password}`),
    `One patient's check-in: ${url}${link.pathname}${link.search}${link.hash}`,
  ]
}

const firstSteps = [
  'No demo scenario. An empty database gets its clinic and its first administrator in another terminal:',
  '  npm run admin -- create-clinic --name "Your clinic" --zone America/Denver --phone 555-0100',
  '  npm run admin -- create-staff --role administrator --email you@your.clinic --name "Your Name"',
  'The second prints a link with which that person sets a password.',
]

/** @param {import('./server.mjs').Address} address */
function exposure({ host }) {
  if (/^(127\.|localhost$|::1$)/.test(host)) return []
  return [
    `It listens on ${host}: other machines can reach it. Put a TLS proxy before it and set OUTFLOW_URL.`,
  ]
}
