/** The tick and the tone, to be heard: off until asked for. */
export class MotionSound {
  private audio: AudioContext | null = null;

  /** Whether it can be heard. */
  get isOn(): boolean {
    return this.audio !== null;
  }

  /** Turns it on or off. */
  toggle(): void {
    if (this.audio === null) this.audio = new AudioContext();
    else {
      void this.audio.close();
      this.audio = null;
    }
  }

  /** A soft tone while the burst lasts; s, as slow as the picture. */
  tone(seconds: number): void {
    this.play("sine", 440, 0.05, seconds, false);
  }

  /** The tick. */
  tick(): void {
    this.play("square", 1800, 0.2, 0.03, true);
  }

  private play(
    type: OscillatorType,
    hertz: number,
    loudness: number,
    seconds: number,
    fades: boolean,
  ): void {
    if (this.audio === null) return;
    const now = this.audio.currentTime;
    const source = new OscillatorNode(this.audio, { type, frequency: hertz });
    const gain = new GainNode(this.audio, { gain: loudness });
    if (fades) gain.gain.exponentialRampToValueAtTime(1e-4, now + seconds);
    source.connect(gain).connect(this.audio.destination);
    source.start(now);
    source.stop(now + seconds);
  }
}
