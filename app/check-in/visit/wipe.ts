import { LANGUAGE_COOKIE } from '../words/choose-language.ts'

/** Takes away whatever this phone holds of the page beside its database: the kept pages, the worker, what tabs noted. */
export async function wipe(): Promise<void> {
  for (const shelf of [localShelf, sessionShelf])
    for (const name of Object.keys(shelf())) if (name.startsWith('check-in')) shelf().removeItem(name)
  // biome-ignore lint/suspicious/noDocumentCookie: the other way to set one is missing in old phones' browsers
  document.cookie = `${LANGUAGE_COOKIE}=; Path=/; Max-Age=0; SameSite=Lax`
  try {
    for (const name of await caches.keys()) if (name.startsWith('check-in')) await caches.delete(name)
    const registration = await navigator.serviceWorker.getRegistration('/check-in')
    await registration?.unregister()
  } catch {
    // A browser that refuses storage has kept no page.
  }
}

const nothing: Pick<Storage, 'removeItem'> = { removeItem: () => undefined }
function localShelf() {
  try {
    return window.localStorage
  } catch {
    return nothing
  }
}
function sessionShelf() {
  try {
    return window.sessionStorage
  } catch {
    return nothing
  }
}
