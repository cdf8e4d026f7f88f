/** A letter that is not to be sent, now or later: for the outbox, with the reason. */
export class NotToBeSent extends Error {}

/** A letter that is not to be sent before then. */
export class NotYet extends Error {
  constructor(readonly until: Date) {
    super('not yet')
  }
}
