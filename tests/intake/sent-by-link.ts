import type { Receipt } from '../../lib/domain/submission.ts'
import { checkInSession, exchangeLink, receiveReport } from '../../lib/intake/index.ts'
import { at } from '../store/clinic.ts'

export const tokenOf = (link: string): string => link.split('#')[1] ?? ''

/** Opens a link at an hour; what comes back sends reports by it. */
export async function phoneWith(link: string, hours: number) {
  const { session, expiresAt } = await exchangeLink(tokenOf(link), at(hours))
  const send = async (key: string, body: unknown, sentAt: number, more = {}): Promise<Receipt> => {
    const opened = await checkInSession(session, at(sentAt))
    const { clinicId, patientId } = opened
    return receiveReport(
      {
        clinicId,
        patientId,
        door: 'check-in',
        source: patientId,
        by: null,
        link: opened,
        key,
        body,
        ...more,
      },
      at(sentAt),
    )
  }
  return { session, expiresAt, send }
}
