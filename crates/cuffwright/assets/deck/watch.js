// Whom to look at next. A mark is moved, never a place: the swimmers stand where they stand.
//
// Every swimmer gets at least one look in every set. Spare looks go to whoever is likeliest to lose form in the next
// ten seconds, by a log-normal of the seconds to form loss that came in the bag (own sets; a wide one for newcomers).

/** @typedef {{who:string, mu:number, sigma:number, cap:number}} Live  seconds throughout */

/** How long one look lasts, seconds: the trade's practice is three to four. */
export const LOOK_S = 4;
/** A swimmer who was just looked at waits this long for a spare look, seconds. */
const AGAIN_S = 12;
const AHEAD_S = 10;

/** Share of a standard normal above z (Abramowitz and Stegun 7.1.26, error below 1.5e-7). @param {number} z */
export function above(z) {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const poly = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const tail = (poly * Math.exp(-x * x)) / 2;
  return z < 0 ? 1 - tail : tail;
}

/** Chance of form loss within the next seconds, given form was good up to now. @param {Live} live @param {number} s @param {number} [ahead] */
export function chance(live, s, ahead = AHEAD_S) {
  const still = s <= 0 ? 1 : above((Math.log(s) - live.mu) / live.sigma);
  const later = above((Math.log(s + ahead) - live.mu) / live.sigma);
  // Far beyond anything on record the ratio loses its digits; such a swimmer may go at any moment.
  return still < 1e-6 ? 1 : Math.min(1, Math.max(0, 1 - later / still));
}

export class Watch {
  /** @type {Map<string, number>} when each was last looked at, seconds into the set */
  #looked = new Map();
  #mark = "";
  #since = 0;

  /** A new set: nobody has been looked at. */
  begin() {
    this.#looked.clear();
    this.#mark = "";
  }

  /** A touch on a swimmer is a look. @param {string} who @param {number} s */
  look(who, s) {
    this.#looked.set(who, s);
  }

  /** @param {string} who */
  hasLooked(who) {
    return this.#looked.has(who);
  }

  /**
   * Who is marked now. Called about once a second with everybody still working, in the order of their places.
   * @param {Live[]} live @param {number} s
   * @returns {string} nobody: ""
   */
  next(live, s) {
    const marked = live.find((one) => one.who === this.#mark);
    if (marked && s - this.#since < LOOK_S) return this.#mark;
    if (marked) this.#looked.set(this.#mark, s);
    this.#mark = this.#choose(live, s);
    this.#since = s;
    return this.#mark;
  }

  /** @param {Live[]} live @param {number} s */
  #choose(live, s) {
    const unseen = live.filter((one) => !this.#looked.has(one.who));
    const end = Math.max(0, ...live.map((one) => one.cap)) - s;
    // No time left to spare: first everybody once, the likeliest first.
    const mustTurn = 0 < unseen.length && end <= (unseen.length + 1) * LOOK_S;
    const rested = live.filter((one) => !this.#looked.has(one.who) || AGAIN_S <= s - (this.#looked.get(one.who) ?? 0));
    const among = mustTurn ? unseen : 0 < rested.length ? rested : live;
    let best = "";
    let most = -1;
    for (const one of among) {
      const here = chance(one, s);
      // Between equals, one who was not looked at yet.
      const weight = here + (this.#looked.has(one.who) ? 0 : 1e-9);
      if (most < weight) [best, most] = [one.who, weight];
    }
    return best;
  }
}
