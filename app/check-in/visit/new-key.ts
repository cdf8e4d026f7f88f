/** A key that no other report has: 122 random bits. */
export const newKey = (): string => crypto.randomUUID()
