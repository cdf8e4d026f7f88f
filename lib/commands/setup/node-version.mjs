import { Refusal } from './refusal.mjs'

const oldest = [20, 19]

/** Refuses a Node that is too old for the packages. @param {string} version */
export function requireNode(version = process.versions.node) {
  const [major = 0, minor = 0] = version.split('.').map(Number)
  const [needMajor = 0, needMinor = 0] = oldest
  if (major > needMajor || (major === needMajor && minor >= needMinor)) return
  throw new Refusal(
    `Node ${oldest.join('.')} or newer is needed, and this is ${version}: see https://nodejs.org`,
  )
}
