// The page for home: it stands alone, so the modules it needs are put in front of it by the server. A timer with the
// beat, two sets of each line, and a code at the end.

/* global cuesOf, sound, beatAt, shown, homeCode */

const sheet = JSON.parse(document.querySelector("#sheet").textContent);
const words = JSON.parse(document.querySelector("#words").textContent);
const done = sheet.lines.map(() => []);
const said = [undefined, undefined, undefined];
let audio;
let running;

const say = (name, values = {}) => (words[name] ?? name).replace(/\{(\w+)\}/g, (_, key) => values[key] ?? "");

function begin(line, set, box) {
  const { tempo, cap_s } = sheet.lines[line];
  audio ??= new AudioContext();
  void audio.resume();
  const started = performance.now() + 5000;
  const origin = audio.currentTime + 5;
  for (const cue of cuesOf(tempo, cap_s)) sound(audio, audio.destination, cue.tone, Math.max(audio.currentTime, origin + cue.at));
  const clock = box.querySelector(".clock");
  const beat = box.querySelector(".beat");
  const stop = box.querySelector(".stop");
  const go = box.querySelector(".go");
  stop.hidden = false;
  go.hidden = true;
  const end = (seconds) => {
    clearInterval(running);
    void audio.close();
    audio = undefined;
    done[line][set] = seconds;
    stop.hidden = true;
    clock.textContent = `${seconds} s`;
    beat.textContent = set + 1 < sheet.lines[line].sets ? say("home-rest", { s: sheet.rest_s }) : say("home-line-done");
    go.hidden = sheet.lines[line].sets <= set + 1;
    go.onclick = () => begin(line, set + 1, box);
    code();
  };
  stop.onclick = () => end(Math.max(0, Math.floor((performance.now() - started) / 1000)));
  running = setInterval(() => {
    const ms = performance.now() - started;
    if (cap_s * 1000 <= ms) return end(cap_s);
    clock.textContent = shown(ms < 0 ? -ms : cap_s * 1000 - ms);
    const at = 0 <= ms ? beatAt(tempo, ms) : undefined;
    beat.textContent = !at ? say("beat-ready") : at.part === "circle" ? say(at.clockwise ? "beat-clockwise" : "beat-counter") : say(`beat-${at.part}`);
  }, 50);
}

function code() {
  const made = new Date(`${sheet.made}T00:00:00`);
  const today = new Date();
  today.setHours(0, 0, 0, 0);
  const days = Math.min(127, Math.max(0, Math.round((today.getTime() - made.getTime()) / 86_400_000)));
  document.querySelector("#code").textContent = homeCode({ sheet: sheet.sheet, days, said, sets: done });
}

document.querySelectorAll(".line").forEach((box, line) => {
  box.querySelector(".go").onclick = () => begin(line, 0, box);
});
document.querySelectorAll(".answer").forEach((select, place) => {
  select.onchange = () => {
    said[place] = select.value === "" ? undefined : Number(select.value);
    code();
  };
});
code();
