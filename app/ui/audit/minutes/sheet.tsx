import type { MinutesPart } from '@/lib/domain/minutes-lines.ts'
import audit from '../audit.module.css'
import css from './minutes.module.css'

type Props = {
  head: { title: string; lines: readonly string[] }
  parts: readonly MinutesPart[]
  level: 2 | 3
}

/** Minutes as they are read on the screen and on paper. */
export function Sheet({ head, parts, level }: Props) {
  const Title = level === 2 ? 'h2' : 'h3'
  return (
    <>
      <div>
        {head.lines.map((line) => (
          <p key={line} className={css.hash}>
            {line}
          </p>
        ))}
      </div>
      {parts.map(({ title, lines }) => (
        <section key={title} className={audit.part}>
          <Title>{title}</Title>
          <ul className={css.lines}>
            {lines.map(({ text, under, strong }) => (
              <li key={text}>
                <p className={strong ? css.strong : undefined}>{text}</p>
                {under.map((line) => (
                  <p key={line} className={audit.quiet}>
                    {line}
                  </p>
                ))}
              </li>
            ))}
          </ul>
        </section>
      ))}
    </>
  )
}
