/**
 * Copies a text. False where the browser refuses, or has no clipboard for a page (outside HTTPS and this machine): then a
 * person must copy it by hand, and must be told.
 */
export async function copyText(
  text: string,
  // Missing outside a secure context, whatever its type says.
  clipboard: Pick<Clipboard, 'writeText'> | undefined = navigator.clipboard as Clipboard | undefined,
): Promise<boolean> {
  if (clipboard === undefined) return false
  return clipboard.writeText(text).then(
    () => true,
    () => false,
  )
}
