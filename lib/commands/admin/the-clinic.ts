import { Refusal } from '../../domain/problem.ts'
import { allClinics } from '../../store/clinics.ts'
import { read } from '../../store/index.ts'

/**
 * The id of the clinic that is meant: the one named, else the only one there is.
 * @throws Refusal not-found, invalid-input
 */
export async function theClinic(id: string | undefined): Promise<string> {
  const { rows } = await read(allClinics)
  if (rows.length === 0)
    throw new Refusal(
      'not-found',
      'There is no clinic yet. Make it first:\n  npm run admin -- create-clinic --name "Your clinic" --zone America/Denver --phone "+1 555 0100"',
    )
  if (id !== undefined) {
    if (rows.some((clinic) => clinic.id === id)) return id
    throw new Refusal(
      'not-found',
      `There is no clinic ${id}; there are: ${rows.map((clinic) => clinic.id).join(', ')}`,
    )
  }
  const [only, ...others] = rows
  if (only && others.length === 0) return only.id
  throw new Refusal(
    'invalid-input',
    `Which clinic? --clinic ${rows.map((clinic) => `${clinic.id} (${clinic.name})`).join(' or ')}`,
  )
}
