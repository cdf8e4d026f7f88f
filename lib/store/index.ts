export { closeStore, read, snapshot, type Tx, write } from './client.ts'
export { databaseUrl } from './connect.ts'
export { closeSignInClient, signInDatabase } from './sign-in-client.ts'
