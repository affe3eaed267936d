/** What of the browser's voice is used here. */
export type Voice = {
  readonly cancel: () => void
  readonly speak: (utterance: SpeechSynthesisUtterance) => void
}

/** The voice of this browser, if it has one. */
export function voiceOf(browser: object): Voice | undefined {
  return 'speechSynthesis' in browser ? (browser.speechSynthesis as Voice) : undefined
}

/** “10-3” is a place and no subtraction: said as two numbers, one after the other. */
export function spokenLabel(label: string): string {
  return label.replaceAll(/(?<=\d)[-–](?=\d)/g, ', ')
}

/** Says it, in the place of what is still being said: the last weight is the one that is waited for. */
export function say(text: string, voice: Voice | undefined, make: (text: string) => SpeechSynthesisUtterance): void {
  if (voice === undefined) return
  const utterance = make(text)
  utterance.lang = 'en'
  voice.cancel()
  voice.speak(utterance)
}
