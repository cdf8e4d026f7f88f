import { registryFiles } from '@/lib/domain/registry.ts'
import audit from '../audit.module.css'
import css from './minutes.module.css'

/** What can leave the clinic for a registry or a paper: files without anything that names a person, and their dictionary. */
export function RegistryLinks() {
  return (
    <section aria-labelledby="registry" className={`${audit.part} ${css.exports}`}>
      <h2 id="registry">For a registry or a paper</h2>
      <p>
        Of all patients of the clinic but those who withdrew consent, without names, numbers, dates or free
        text: days since placement, ages over 89 as one, counts under 5 withheld, twelve random letters for
        each patient that are made anew with each file and kept nowhere. Who takes a file stands in the access
        record. Whether it may leave the clinic is for whoever answers for privacy there.
      </p>
      <ul>
        {registryFiles.map(({ file, says }) => (
          <li key={file}>
            <a href={`/api/audit/registry/${file}`}>{file}</a>: {says}
          </li>
        ))}
      </ul>
    </section>
  )
}
