// The sound of a timer that is over: three short tones made by the browser itself, and a shake of the device
// where it can. A browser lets a page sound only after it was pressed, so a press prepares it.
let sounds: AudioContext | undefined;

/** Called by the press that starts a timer. */
export function prepareAlarm(): void {
  try {
    sounds ??= new AudioContext();
    if (sounds.state === "suspended") void sounds.resume().catch(() => undefined);
  } catch {
    // No sound on this device: the strip shows it.
  }
}

export function soundAlarm(): void {
  try {
    if (typeof navigator.vibrate === "function" && navigator.userActivation?.hasBeenActive !== false)
      navigator.vibrate([300, 150, 300, 150, 300]);
  } catch {
    // The device does not shake.
  }
  if (sounds?.state !== "running") return;
  for (const [n, tone] of [880, 880, 1175].entries()) {
    const begins = sounds.currentTime + n * 0.35;
    const source = sounds.createOscillator();
    const loudness = sounds.createGain();
    source.frequency.value = tone;
    loudness.gain.setValueAtTime(0.0001, begins);
    loudness.gain.exponentialRampToValueAtTime(0.4, begins + 0.02);
    loudness.gain.exponentialRampToValueAtTime(0.0001, begins + 0.28);
    source.connect(loudness).connect(sounds.destination);
    source.start(begins);
    source.stop(begins + 0.3);
  }
}
