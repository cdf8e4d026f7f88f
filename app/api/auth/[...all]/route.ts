import { signInDoor } from '@/lib/http/sign-in-door.ts'

export const POST = signInDoor
