/** Two short tones, the second higher: soft enough for a ward, and like nothing that a monitor says. */
const TONES = [
  { hertz: 587, from: 0 },
  { hertz: 784, from: 0.16 },
] as const
const LENGTH_S = 0.14
const LOUDNESS = 0.12

/** Sounds them, where the browser lets a page sound: it does once somebody has pressed something on it. */
export async function chime(): Promise<void> {
  try {
    const audio = new AudioContext()
    if (audio.state === 'suspended') await audio.resume()
    for (const { hertz, from } of TONES) {
      const tone = audio.createOscillator()
      const volume = audio.createGain()
      const start = audio.currentTime + from
      tone.frequency.value = hertz
      volume.gain.setValueAtTime(0, start)
      volume.gain.linearRampToValueAtTime(LOUDNESS, start + 0.02)
      volume.gain.linearRampToValueAtTime(0, start + LENGTH_S)
      tone.connect(volume).connect(audio.destination)
      tone.start(start)
      tone.stop(start + LENGTH_S)
    }
    setTimeout(() => void audio.close(), 1_000)
  } catch {
    // Without sound: the title, the line above the list and the row itself say the same.
  }
}
