import assert from "node:assert/strict";
import { test } from "node:test";
import { homeCode } from "../../assets/deck/homecode.js";

test("the page makes the code that the server reads", () => {
  // The same words stand in the server's test (deck::home).
  const told = { sheet: 4711, days: 3, said: [0, 2, undefined], sets: [[60, 45], [5, undefined], [undefined, undefined], [120, 0]] };
  assert.equal(homeCode(told), "69KG-C1FC-91ZZ-ZR08-1RMM");
  assert.match(homeCode(told), /^([0-9A-HJKMNP-TV-Z]{4}-){4}[0-9A-HJKMNP-TV-Z]{4}$/);
  assert.notEqual(homeCode(told), homeCode({ ...told, days: 4 }));
});
