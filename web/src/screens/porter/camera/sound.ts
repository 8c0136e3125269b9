import { signal } from "@preact/signals";

/** Whether a code that is read makes a sound. */
export const isLoud = signal(true);

let context: AudioContext | null = null;

/** Browsers give sound only after a tap: to be called from one. */
export function readySound(): void {
  context ??= new AudioContext();
  void context.resume();
}

/** One high tone for what is known, two low ones for what is not; and a touch of the hand. */
export function sound(isKnown: boolean): void {
  if ("vibrate" in navigator) navigator.vibrate(isKnown ? 60 : [60, 80, 60]);
  if (!context || !isLoud.value) return;
  const starts = isKnown ? [0] : [0, 0.16];
  for (const start of starts) tone(context, isKnown ? 1_320 : 330, context.currentTime + start);
}

const LENGTH = 0.1;
const LOUDNESS = 0.25;

/** A tone of a tenth of a second, with soft ends so that it does not crack. */
function tone(within: AudioContext, pitch: number, at: number): void {
  const [voice, volume] = [within.createOscillator(), within.createGain()];
  voice.frequency.value = pitch;
  volume.gain.setValueAtTime(0, at);
  volume.gain.linearRampToValueAtTime(LOUDNESS, at + 0.01);
  volume.gain.setValueAtTime(LOUDNESS, at + LENGTH - 0.02);
  volume.gain.linearRampToValueAtTime(0, at + LENGTH);
  voice.connect(volume).connect(within.destination);
  voice.start(at);
  voice.stop(at + LENGTH);
}
