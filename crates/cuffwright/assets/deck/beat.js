// The beat as tones on the audio clock: a low tone begins the way out, a high one the way back, a short tick counts a
// hold, and a rising pair says that the direction changes. When each sounds is pure arithmetic on the start of the set.

/** @import {Tempo} from "./types.js" */

/** @typedef {{at:number, tone:"out"|"back"|"tick"|"turn"|"ready"|"go"|"end"}} Cue  seconds from the start of the set */

/** Hertz and seconds of each tone. High and steady tones carry through a pool hall. */
export const TONES = {
  out: { hertz: 660, lasts: 0.09 },
  back: { hertz: 990, lasts: 0.09 },
  tick: { hertz: 1760, lasts: 0.03 },
  turn: { hertz: 1480, lasts: 0.25 },
  ready: { hertz: 740, lasts: 0.12 },
  go: { hertz: 1480, lasts: 0.5 },
  end: { hertz: 494, lasts: 0.9 },
};

/** Every tone of one set. @param {Tempo} tempo @param {number} seconds @param {number} [lead] @returns {Cue[]} */
export function cuesOf(tempo, seconds, lead = 3) {
  /** @type {Cue[]} */
  const cues = [];
  for (let s = lead; 0 < s; s -= 1) cues.push({ at: -s, tone: "ready" });
  cues.push({ at: 0, tone: "go" });
  if (tempo.kind === "hold") for (let s = 10; s < seconds; s += 10) cues.push({ at: s, tone: "tick" });
  if (tempo.kind === "circles") {
    for (let s = 1; s < seconds; s += 1) cues.push({ at: s, tone: s % tempo.every_s === 0 ? "turn" : "out" });
  }
  if (tempo.kind === "beat") beats(tempo, seconds, cues);
  cues.push({ at: seconds, tone: "end" });
  return cues;
}

/** @param {{out:number, hold:number, back:number}} tempo @param {number} seconds @param {Cue[]} cues */
function beats(tempo, seconds, cues) {
  const whole = tempo.out + tempo.hold + tempo.back;
  // Each onset is counted from the start, so that nothing adds up.
  for (let count = 0; count * whole < seconds; count += 1) {
    const at = count * whole;
    if (0 < count) cues.push({ at, tone: "out" });
    for (let s = 1; s < tempo.hold; s += 1) cues.push({ at: at + tempo.out + s, tone: "tick" });
    if (at + tempo.out + tempo.hold < seconds) cues.push({ at: at + tempo.out + tempo.hold, tone: "back" });
  }
}

/**
 * Puts one tone on an audio clock. @param {BaseAudioContext} audio @param {AudioNode} to
 * @param {keyof typeof TONES} tone @param {number} when  seconds of the audio clock
 */
export function sound(audio, to, tone, when) {
  const { hertz, lasts } = TONES[tone];
  const voice = audio.createOscillator();
  const level = audio.createGain();
  voice.frequency.value = hertz;
  level.gain.setValueAtTime(0, when);
  level.gain.linearRampToValueAtTime(0.9, when + 0.004);
  level.gain.setValueAtTime(0.9, when + lasts * 0.6);
  level.gain.linearRampToValueAtTime(0, when + lasts);
  voice.connect(level).connect(to);
  voice.start(when);
  voice.stop(when + lasts + 0.01);
  return voice;
}

/** A little ahead of the clock, so that a busy page is never late. */
const AHEAD_S = 1.5;

export class Beat {
  /** @type {AudioContext|undefined} */
  #audio = undefined;
  /** @type {GainNode|undefined} */
  #out = undefined;
  /** @type {{key:string, cues:Cue[], next:number, origin:number}|undefined} */
  #set = undefined;
  /** @type {OscillatorNode[]} */
  #coming = [];
  on = true;

  /** Needs a touch before: no browser makes a sound by itself. */
  async wake() {
    this.#audio ??= new AudioContext({ latencyHint: "interactive" });
    this.#out ??= this.#audio.createGain();
    this.#out.connect(this.#audio.destination);
    if (this.#audio.state !== "running") await this.#audio.resume();
  }

  /**
   * Called often while a set runs or is about to. `key` names the set; `ms` is how far into it the session clock is.
   * @param {string} key @param {import("./types.js").Tempo} tempo @param {number} seconds @param {number} ms
   */
  follow(key, tempo, seconds, ms) {
    const audio = this.#audio;
    if (!audio || !this.#out || !this.on || audio.state !== "running") return;
    const origin = audio.currentTime - ms / 1000;
    if (this.#set?.key !== key) {
      this.stop();
      this.#set = { key, cues: cuesOf(tempo, seconds), next: 0, origin };
    }
    const set = this.#set;
    // The two clocks may part by a little over minutes; a set is corrected only when it would be heard.
    if (0.03 < Math.abs(origin - set.origin)) set.origin = origin;
    while (set.next < set.cues.length && set.cues[set.next].at <= ms / 1000 + AHEAD_S) {
      const cue = set.cues[set.next];
      set.next += 1;
      const when = set.origin + cue.at;
      if (audio.currentTime - 0.02 <= when) this.#coming.push(sound(audio, this.#out, cue.tone, Math.max(when, audio.currentTime)));
    }
    this.#coming = this.#coming.slice(-12);
  }

  /** Silence at once. */
  stop() {
    for (const voice of this.#coming) voice.stop();
    this.#coming = [];
    this.#set = undefined;
  }
}
