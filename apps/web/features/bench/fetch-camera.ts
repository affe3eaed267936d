import type { CodeDetector } from '#lib/camera/code-detector.ts'
import type { CameraDialog } from './camera-dialog.tsx'

export type Camera = { readonly Dialog: typeof CameraDialog; readonly detect: CodeDetector }

/**
 * All that scanning by the camera needs, fetched when it is first wanted: most codes are typed or come from a scanner. Whole
 * or not at all: a dialog that came without what reads its picture would look at labels for ever.
 * @throws Error where it is not on this device and there is no network
 */
export async function fetchCamera(): Promise<Camera> {
  const [{ CameraDialog: Dialog }, { chooseDetector, squareDetector }] = await Promise.all([
    import('./camera-dialog.tsx'),
    import('#lib/camera/code-detector.ts'),
    import('#components/dialog-frame.tsx'),
  ])
  return { Dialog, detect: await chooseDetector(window, squareDetector) }
}
