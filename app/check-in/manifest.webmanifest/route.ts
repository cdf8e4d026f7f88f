import { languages } from '@/lib/domain/languages.ts'
import icon192 from '../icons/icon-192.png'
import icon512 from '../icons/icon-512.png'
import vector from '../icons/vector.svg'
import { sayFor } from '../words/catalogues.ts'
import { pageLanguage } from '../words/page-language.ts'

const sized = (size: number, { src }: { src: string }) => ({
  src,
  sizes: `${size}x${size}`,
  type: 'image/png',
  purpose: 'any maskable',
})

/** What a phone needs to put the check-in among its apps. It opens at `/check-in`: the session knows whose it is. */
export async function GET(): Promise<Response> {
  const language = await pageLanguage()
  const name = sayFor(language)('pageTitle')
  const manifest = {
    id: '/check-in',
    name,
    short_name: name,
    lang: language,
    dir: languages[language].dir,
    start_url: '/check-in',
    scope: '/check-in',
    display: 'standalone',
    background_color: '#f6f4ee',
    theme_color: '#1d2733',
    icons: [
      { src: vector.src, sizes: 'any', type: 'image/svg+xml' },
      sized(192, icon192),
      sized(512, icon512),
    ],
  }
  return Response.json(manifest, { headers: { 'Content-Type': 'application/manifest+json' } })
}
