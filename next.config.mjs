import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('.', import.meta.url))

/** @type {import('next').NextConfig} */
export default {
  // The end-to-end tests build beside the folder that `npm start` serves from.
  distDir: process.env.NEXT_DIST_DIR ?? '.next',
  poweredByHeader: false,
  reactStrictMode: true,
  // Named, since Next would take the nearest lock file above for the root.
  outputFileTracingRoot: root,
  turbopack: { root },
  // Native code or code that reads its own files: loaded by Node, not bundled.
  serverExternalPackages: [
    'better-sqlite3',
    '@prisma/adapter-better-sqlite3',
    '@prisma/client',
    '@node-rs/argon2',
    'nodemailer',
    'pino',
    'pdfkit',
    'svg-to-pdfkit',
  ],
  // Types are a check of their own in `npm test`, over the whole tree; a start need not wait for them.
  typescript: { ignoreBuildErrors: true },
}
