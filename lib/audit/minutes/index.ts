export { readMinutes, readSignedMinutes } from './read-minutes.ts'
export { signMinutes } from './sign-minutes.ts'
