import { existsSync, readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'

// What a document names must be there: files, links, commands. A document that tells of what is gone misleads.

const root = fileURLToPath(new URL('../..', import.meta.url))
const pages = [
  'README.md',
  'DEVELOPERS.md',
  ...['docs', 'docs/decisions'].flatMap((folder) =>
    readdirSync(path.join(root, folder))
      .filter((name) => name.endsWith('.md'))
      .map((name) => `${folder}/${name}`),
  ),
]
const text = (page: string) => readFileSync(path.join(root, page), 'utf8')
const scripts: Record<string, string> = JSON.parse(text('package.json')).scripts

/** A path from the top of the repository; the target of a link, which is looked at by itself. */
const FILE = /(?<![@\w/.-])((?:lib|app|tests|e2e|docs|prisma)\/[\w/.[\]()-]*\w\/?)/g
const LINK = /\]\([^)]*\)/g

/** A heading as its link names it. */
const anchors = (page: string) =>
  [...text(page).matchAll(/^#+ (.*)$/gm)].map(([, title = '']) =>
    title
      .toLowerCase()
      .replace(/[^\w\- ]/g, '')
      .replaceAll(' ', '-'),
  )

/** What a pattern's group finds on a page, less the parts that are `left` out. */
const matches = (page: string, pattern: RegExp, left: RegExp | '' = '') =>
  [...text(page).replaceAll(left, '').matchAll(pattern)].map(([, one = '']) => one)

describe.each(pages)('%s', (page) => {
  it('names files that there are', () => {
    const named = matches(page, FILE, LINK)
    // Not those that are generated, nor a stand-in for a name that the reader gives.
    const real = named.filter((file) => !/YOUR-|generated/.test(file))
    expect(real.filter((file) => !existsSync(path.join(root, file)))).toEqual([])
  })
  it('links to what there is', () => {
    const broken = matches(page, /\]\((?!https?:)([^)\s]+)\)/g).filter((link) => {
      const [file = '', anchor] = link.split('#')
      const target = file === '' ? page : path.join(path.dirname(page), file)
      if (!existsSync(path.join(root, target))) return true
      return anchor !== undefined && !anchors(target).includes(anchor)
    })
    expect(broken).toEqual([])
  })
  it('names commands that there are', () => {
    const named = matches(page, /npm run (?:--silent )?([a-z][\w-]*)/g)
    expect(named.filter((name) => !(name in scripts))).toEqual([])
  })
})

it('every decision stands in the index', () => {
  const listed = matches('docs/decisions/README.md', /\]\(([\w-]+\.md)\)/g)
  const there = readdirSync(path.join(root, 'docs/decisions')).filter((name) => name !== 'README.md')
  expect(listed.sort()).toEqual(there.sort())
})
