// Keeps the screen on while a session runs, where the browser allows it (secure pages only), and says whether it does.

export class Awake {
  /** @type {WakeLockSentinel|undefined} */
  #lock = undefined;
  wanted = false;

  get can() {
    return "wakeLock" in navigator;
  }

  get holds() {
    return this.#lock !== undefined && !this.#lock.released;
  }

  async want() {
    this.wanted = true;
    if (!this.can || this.holds || document.hidden) return;
    try {
      this.#lock = await navigator.wakeLock.request("screen");
    } catch {
      // A low battery may refuse it: the page then says so, and a screen that slept over the cap is seen by the clock.
      this.#lock = undefined;
    }
  }

  async release() {
    this.wanted = false;
    await this.#lock?.release();
    this.#lock = undefined;
  }
}
