import type { StoredLink } from '../store/links.ts'

/** Whose link did something, as the access record names them. */
export const linkActor = ({ holder, holderName }: Pick<StoredLink, 'holder' | 'holderName'>): string =>
  holder === 'helper' ? `helper’s link: ${holderName}` : 'patient’s link'
