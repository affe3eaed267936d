import type { TabletSettings } from './tablet-settings.ts'

/** What a device tells beside the screen: a label was found, it was a wrong one, a window is about to close. */
export type Signal = 'found' | 'wrong' | 'warning'

type Tone = { readonly hertz: number; readonly from: number; readonly seconds: number }

/** Rising is right, low and twice is wrong, high and three times is a warning: told apart by rhythm too. Our own choice. */
export const tones: Readonly<Record<Signal, readonly Tone[]>> = {
  found: [
    { hertz: 660, from: 0, seconds: 0.07 },
    { hertz: 990, from: 0.08, seconds: 0.09 },
  ],
  wrong: [
    { hertz: 196, from: 0, seconds: 0.18 },
    { hertz: 165, from: 0.26, seconds: 0.28 },
  ],
  warning: [0, 0.3, 0.6].map((from) => ({ hertz: 880, from, seconds: 0.2 })),
}
/** Milliseconds on, off, on. */
export const pulses: Readonly<Record<Signal, readonly number[]>> = {
  found: [60],
  wrong: [180, 90, 180],
  warning: [300, 150, 300, 150, 300],
}
const LOUDNESS = 0.25
/** Without it a tone begins and ends with a click. */
const FADE_SECONDS = 0.01
const STALE_MS = 2_000

export type SignalDevice = {
  readonly audio: () => AudioContext | undefined
  readonly vibrate: ((pattern: number[]) => boolean) | undefined
}

/** Sounds and vibrates as the device is set; what it cannot do, or what fails, is left out: the screen tells it as well. */
export function giveSignal(
  signal: Signal,
  { sound, vibration }: Pick<TabletSettings, 'sound' | 'vibration'>,
  device: SignalDevice = ownDevice,
): void {
  if (vibration) device.vibrate?.([...pulses[signal]])
  if (!sound) return
  try {
    const audio = device.audio()
    if (audio === undefined) return
    if (audio.state === 'running') return playAll(audio, signal)
    // Silent until somebody has touched the page; touched since, it is woken here. What is stale by then stays unheard.
    const asked = performance.now()
    void audio.resume().then(
      () => performance.now() - asked < STALE_MS && playAll(audio, signal),
      () => undefined,
    )
  } catch {
    // A device without a way out for sound.
  }
}

function playAll(audio: AudioContext, signal: Signal): void {
  for (const tone of tones[signal]) play(audio, tone)
}

function play(audio: AudioContext, { hertz, from, seconds }: Tone): void {
  const [oscillator, gain] = [audio.createOscillator(), audio.createGain()]
  const begin = audio.currentTime + from
  oscillator.frequency.value = hertz
  gain.gain.setValueAtTime(0, begin)
  gain.gain.linearRampToValueAtTime(LOUDNESS, begin + FADE_SECONDS)
  gain.gain.setValueAtTime(LOUDNESS, begin + seconds - FADE_SECONDS)
  gain.gain.linearRampToValueAtTime(0, begin + seconds)
  oscillator.connect(gain).connect(audio.destination)
  oscillator.start(begin)
  oscillator.stop(begin + seconds)
}

let context: AudioContext | undefined

const ownDevice: SignalDevice = {
  audio: () => {
    if (typeof AudioContext === 'undefined') return undefined
    return (context ??= new AudioContext())
  },
  get vibrate() {
    const own = globalThis.navigator as { vibrate?: (pattern: number[]) => boolean } | undefined
    return own?.vibrate?.bind(own)
  },
}
