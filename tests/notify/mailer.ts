import { transportsFrom } from '../../lib/notify/transport.ts'
import { deliver } from './deliver-all.ts'
import { house } from './person.ts'

/** A child process that delivers, and stands still in the moment after a letter has left and before that is noted. */
const [now = ''] = process.argv.slice(2)
const { mail, gateway } = transportsFrom()
const standing = {
  name: mail.name,
  send: async (...given: Parameters<typeof mail.send>) => {
    await mail.send(...given)
    process.stdout.write('sent\n')
    await new Promise((resolve) => setTimeout(resolve, 60_000))
  },
}
await deliver({ mail: standing, gateway }, house, new Date(now))
