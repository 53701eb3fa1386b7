// Before, after and taken away: made by the program, played from memory, softly begun and ended.
import { blob, json } from "./api.js";
import { byId, db, say, tell } from "./words.js";

const KINDS = ["before", "after", "removed"];
const NAMES = { before: "Before", after: "After", removed: "Taken away" };
const SOFT = 0.04; // seconds
const KEPT = 8;

export class Sound {
  constructor(about, failed) {
    Object.assign(this, { about, failed });
    this.places = new Map();
    this.playing = null;
    this.place = null;
    for (const kind of KINDS) byId("hear-" + kind).addEventListener("click", () => this.hear(kind));
    byId("hush").addEventListener("click", () => this.stop());
    byId("volume").addEventListener("input", () => this.loudness());
    byId("around").addEventListener("change", () => this.stop());
    byId("matched").addEventListener("change", () => this.stop());
    byId("needle").hidden = true;
  }

  /** What is heard from now on. */
  at(start, frames) {
    const changed = !this.place || this.place.start !== start || this.place.frames !== frames;
    this.place = { start, frames };
    if (changed) this.stop();
  }

  loudness() {
    const value = Number(byId("volume").value);
    tell("volume-out", db(value).replace(".0", ""));
    if (this.volume) this.volume.gain.setTargetAtTime(10 ** (value / 20), this.context.currentTime, 0.02);
  }

  range() {
    const rate = this.about.sampleRateHz;
    const around = Number(byId("around").value) * rate;
    const { start, frames } = this.place;
    const most = this.about.longestSeconds * rate;
    const from = Math.max(0, Math.round(start - around));
    const to = Math.min(this.about.frames, Math.round(start + frames + around), from + most);
    return { from, to, level: byId("matched").checked ? "matched" : "same" };
  }

  async sounds(range) {
    const key = JSON.stringify(range);
    if (!this.places.has(key)) {
      this.places.set(key, this.fetchAll(range));
      if (this.places.size > KEPT) this.places.delete(this.places.keys().next().value);
    }
    try {
      return await this.places.get(key);
    } catch (trouble) {
      this.places.delete(key);
      throw trouble;
    }
  }

  async fetchAll(range) {
    const facts = await json("sound", range);
    const buffers = await Promise.all(
      KINDS.map(async (what) =>
        this.context.decodeAudioData(await (await blob("clip", { ...range, what })).arrayBuffer()),
      ),
    );
    return { facts, range, buffers: Object.fromEntries(KINDS.map((k, i) => [k, buffers[i]])) };
  }

  open() {
    if (this.context) return;
    this.context = new AudioContext();
    this.volume = this.context.createGain();
    this.volume.gain.value = 10 ** (Number(byId("volume").value) / 20);
    this.volume.connect(this.context.destination);
  }

  /** Plays; while another version plays, goes on with this one at the same place. */
  async hear(kind) {
    if (!this.place) return;
    try {
      this.open();
      await this.context.resume();
      const range = this.range();
      const sounds = await this.sounds(range);
      const now = this.context.currentTime;
      const same = this.playing && JSON.stringify(this.playing.range) === JSON.stringify(range);
      let offset = same ? now - this.playing.began : 0;
      const buffer = sounds.buffers[kind];
      if (offset >= buffer.duration || (same && this.playing.kind === kind)) offset = 0;
      this.silence();
      const source = this.context.createBufferSource();
      source.buffer = buffer;
      const soft = this.context.createGain();
      soft.gain.setValueAtTime(0, now);
      soft.gain.linearRampToValueAtTime(1, now + SOFT);
      source.connect(soft).connect(this.volume);
      source.start(now, offset);
      const playing = { kind, range, source, soft, began: now - offset, duration: buffer.duration };
      source.onended = () => this.playing === playing && this.stop();
      this.playing = playing;
      this.show();
      this.account(kind, sounds.facts);
      this.follow();
    } catch (trouble) {
      this.failed(trouble);
    }
  }

  account(kind, facts) {
    const gain = kind === "removed" ? facts.removedGainDb : facts.gainDb;
    let text = NAMES[kind] + ", raised by " + db(gain ?? 0);
    if (kind !== "removed" && facts.matched) {
      text += "; after stands " + db(facts.matchDb) + " higher to be as loud as before";
    } else if (kind !== "removed" && facts.matchDb !== null) {
      text += "; before is " + db(facts.matchDb) + " louder than after, left so";
    }
    tell("heard", text + ".");
  }

  silence() {
    if (!this.playing) return;
    const { source, soft } = this.playing;
    const now = this.context.currentTime;
    soft.gain.cancelScheduledValues(now);
    soft.gain.setTargetAtTime(0, now, SOFT / 4);
    source.onended = null;
    source.stop(now + 2 * SOFT);
    this.playing = null;
  }

  stop() {
    const was = this.playing;
    this.silence();
    this.show();
    byId("needle").hidden = true;
    return Boolean(was);
  }

  show() {
    for (const kind of KINDS) {
      byId("hear-" + kind).setAttribute("aria-pressed", Boolean(this.playing && this.playing.kind === kind));
    }
  }

  /** Moves the needle over the picture. */
  follow() {
    const needle = byId("needle");
    const step = () => {
      if (!this.playing) return;
      const done = Math.min(1, Math.max(0, (this.context.currentTime - this.playing.began) / this.playing.duration));
      const { from, to } = this.playing.range;
      const x = this.view.x(from + done * (to - from));
      needle.hidden = x < 0 || x > this.view.width;
      needle.style.transform = "translateX(" + x + "px)";
      requestAnimationFrame(step);
    };
    step();
  }

  again() {
    if (!this.stop()) {
      say("Nothing plays.");
    }
  }
}
