// Ids made on the device: version 7, from the wall clock and from random bits that need no secure context.

/** @param {number} millis @param {(bytes: Uint8Array<ArrayBuffer>) => void} fill */
export function idFrom(millis, fill) {
  const bytes = new Uint8Array(16);
  fill(bytes);
  let rest = Math.floor(millis);
  for (let place = 5; 0 <= place; place -= 1) {
    bytes[place] = rest % 256;
    rest = Math.floor(rest / 256);
  }
  bytes[6] = (bytes[6] & 0x0f) | 0x70;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

export function freshId() {
  return idFrom(Date.now(), (bytes) => crypto.getRandomValues(bytes));
}
