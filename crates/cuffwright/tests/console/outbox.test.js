import assert from "node:assert/strict";
import { test } from "node:test";
import { IDBFactory } from "fake-indexeddb";
import { Closed, Outbox } from "../../assets/deck/outbox.js";
import { Disk, openDatabase } from "../../assets/deck/shelf.js";
import { idFrom } from "../../assets/deck/ids.js";
import { random } from "./bag.js";

const entry = (seq) => ({ id: `e${String(seq).padStart(4, "0")}`, session: "s1", device: "d", seq, boot: "b", t: seq, wall: "", k: "cue" });
const settle = () => new Promise((resolve) => setTimeout(resolve, 5));

/** Timers that run when the test says so. */
function hand() {
  const waiting = [];
  return { later: (run) => waiting.push(run), async turn() { for (const run of waiting.splice(0)) { run(); await settle(); } } };
}

test("an entry is on the disk before append is done, and leaves only when its id is named", async () => {
  const disk = new Disk(await openDatabase(new IDBFactory()));
  const timers = hand();
  let reply = () => { throw new Error("no network"); };
  const outbox = new Outbox(disk, async (entries) => reply(entries), timers.later);
  await outbox.append([entry(1), entry(2), entry(3)]);
  assert.equal((await disk.all("s1")).length, 3);
  await settle();
  assert.equal(outbox.waiting, 3);
  reply = (entries) => entries.filter((one) => one.seq === 1).map((one) => ({ id: one.id, outcome: "added", says: "" }));
  await timers.turn();
  assert.equal(outbox.waiting, 2);
  reply = () => [];
  await timers.turn();
  assert.equal(outbox.waiting, 2, "an answer that names nothing acknowledges nothing");
  reply = (entries) => entries.map((one) => ({ id: one.id, outcome: "already", says: "" }));
  await timers.turn();
  assert.equal(outbox.waiting, 0);
  assert.deepEqual((await disk.all("s1")).map((kept) => kept.sent), ["there", "there", "there"]);
});

test("what is refused stays, is shown and is not sent again; the rest goes on", async () => {
  const disk = new Disk(await openDatabase(new IDBFactory()));
  const sent = [];
  const outbox = new Outbox(disk, async (entries) => entries.map((one) => (sent.push(one.id), { id: one.id, outcome: one.seq === 2 ? "refused" : "added", says: "taken" })), hand().later);
  await outbox.append([entry(1), entry(2), entry(3)]);
  await settle();
  assert.deepEqual([outbox.waiting, outbox.refused.length, outbox.refused[0].says], [0, 1, "taken"]);
  assert.equal(sent.filter((id) => id === "e0002").length, 1);
  const again = new Outbox(disk, async () => [], hand().later);
  await again.open();
  assert.equal(again.refused.length, 1, "and after a reload it is still shown");
  assert.equal(JSON.parse(again.export()).entries[0].id, "e0002");
});

test("a closed door is told apart from no network, and nothing is lost", async () => {
  const outbox = new Outbox(new Disk(await openDatabase(new IDBFactory())), async () => { throw new Closed("sign in"); }, hand().later);
  await outbox.append([entry(1)]);
  await settle();
  assert.deepEqual([outbox.reach, outbox.waiting], ["closed", 1]);
});

test("a server that loses requests and answers, and a page that is reloaded at any moment: each entry arrives once", async () => {
  for (let seed = 1; seed <= 25; seed += 1) {
    const draw = random(seed);
    const factory = new IDBFactory();
    const server = new Map();
    const order = [];
    const post = async (entries) => {
      if (draw() < 0.3) throw new Error("the request is lost");
      for (const one of entries) {
        if (!server.has(one.id)) order.push(one.seq);
        server.set(one.id, one);
        if (draw() < 0.05) throw new Error("killed in the middle");
      }
      if (draw() < 0.3) throw new Error("the answer is lost");
      return entries.map((one) => ({ id: one.id, outcome: "added", says: "" }));
    };
    let seq = 0;
    for (let life = 0; life < 4; life += 1) {
      const timers = hand();
      const outbox = new Outbox(new Disk(await openDatabase(factory)), post, timers.later);
      await outbox.open();
      for (let touch = 0; touch < 12; touch += 1) {
        await outbox.append([entry((seq += 1))]);
        if (draw() < 0.4) await timers.turn();
      }
      // The page goes without a goodbye.
    }
    const timers = hand();
    const last = new Outbox(new Disk(await openDatabase(factory)), post, timers.later);
    await last.open();
    for (let tries = 0; tries < 200 && 0 < last.waiting; tries += 1) { await settle(); await timers.turn(); }
    assert.equal(last.waiting, 0, `seed ${seed}`);
    assert.equal(server.size, 48, `seed ${seed}`);
    assert.deepEqual(order, [...order].sort((a, b) => a - b), `seed ${seed}: in order`);
  }
});

test("ids carry their time and are of version 7", () => {
  const id = idFrom(1_795_600_000_123, (bytes) => bytes.fill(0xff));
  assert.match(id, /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  assert.equal(Number.parseInt(id.replaceAll("-", "").slice(0, 12), 16), 1_795_600_000_123);
});
