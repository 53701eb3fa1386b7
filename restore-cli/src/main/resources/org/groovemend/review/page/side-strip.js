// The whole side in one strip: waveform of the transfer, density of edits below it, what the picture shows.
import { byId, count, time } from "./words.js";
import { canvasOf, colours } from "./place.js";
import { BY_RULE, OWN } from "./edits.js";

export class SideStrip {
  constructor(edits, about, waves, view) {
    Object.assign(this, { edits, about, waves, view });
    this.canvas = byId("strip");
    this.canvas.setAttribute("aria-valuemax", Math.round(about.frames / about.sampleRateHz));
    this.layer = document.createElement("canvas");
    this.fresh = false;
    view.addEventListener("change", () => this.later());
    new ResizeObserver(() => this.stale()).observe(this.canvas);
    this.canvas.addEventListener("pointerdown", (e) => this.go(e));
    this.canvas.addEventListener("pointermove", (e) => e.buttons === 1 && this.go(e));
    this.canvas.addEventListener("keydown", (e) => this.key(e));
  }

  go(e) {
    const box = this.canvas.getBoundingClientRect();
    this.view.centre(((e.clientX - box.left) / box.width) * this.about.frames);
  }

  key(e) {
    const step = { ArrowLeft: -0.25, ArrowDown: -0.25, ArrowRight: 0.25, ArrowUp: 0.25, PageUp: 2, PageDown: -2 }[e.key];
    if (step) this.view.move(step * (this.view.to - this.view.from));
    else if (e.key === "Home") this.view.set(0, this.view.scale);
    else if (e.key === "End") this.view.set(this.about.frames, this.view.scale);
    else return;
    e.preventDefault();
    e.stopPropagation();
  }

  /** The picture itself must be drawn anew, not only the frame in it. */
  stale() {
    if (this.soon) return;
    this.soon = setTimeout(() => {
      this.soon = 0;
      this.fresh = false;
      this.later();
    }, 120);
  }

  later() {
    if (!this.waiting) this.waiting = requestAnimationFrame(() => this.draw());
  }

  draw() {
    this.waiting = 0;
    const { g, width, height, dpr } = canvasOf(this.canvas);
    if (!this.fresh || this.layer.width !== this.canvas.width || this.layer.height !== this.canvas.height) {
      this.layer.width = this.canvas.width;
      this.layer.height = this.canvas.height;
      const l = this.layer.getContext("2d");
      l.setTransform(dpr, 0, 0, dpr, 0, 0);
      this.fresh = true;
      this.picture(l, width, height);
    }
    g.setTransform(1, 0, 0, 1, 0, 0);
    g.drawImage(this.layer, 0, 0);
    g.setTransform(dpr, 0, 0, dpr, 0, 0);
    const c = colours();
    const left = (this.view.from / this.about.frames) * width;
    const right = (this.view.to / this.about.frames) * width;
    g.strokeStyle = c.ink;
    g.lineWidth = 2;
    g.strokeRect(left + 1, 1, Math.max(3, right - left - 2), height - 2);
    this.speak();
  }

  picture(g, width, height) {
    const c = colours();
    const middle = Math.round(height * 0.3);
    const line = Math.round(height * 0.6);
    const { frames, channels } = this.about;
    let peak = 1e-6;
    const lanes = [];
    for (let ch = 0; ch < channels; ch++) {
      const columns = this.waves.columns(ch, 0, 0, frames / width, Math.round(width), frames);
      lanes.push(columns);
      for (const v of columns) if (Math.abs(v) > peak) peak = Math.abs(v);
    }
    g.fillStyle = c.muted;
    for (const columns of lanes) {
      for (let x = 0; 2 * x < columns.length; x++) {
        if (Number.isNaN(columns[2 * x])) continue;
        const up = (columns[2 * x + 1] / peak) * middle;
        const down = (columns[2 * x] / peak) * middle;
        g.fillRect(x, middle - up, 1, Math.max(1, up - down));
      }
    }
    g.fillStyle = c.ink;
    g.fillRect(0, line, width, 1);
    this.density(g, width, line + 1, height - line - 1, c);
  }

  density(g, width, top, room, c) {
    const columns = Math.floor(width / 3);
    const sums = { keep: new Float32Array(columns), undo: new Float32Array(columns), ask: new Float32Array(columns) };
    const all = new Float32Array(columns);
    for (let i = 0; i < this.edits.size; i++) {
      const x = Math.min(columns - 1, Math.floor((this.edits.start[i] / this.about.frames) * columns));
      sums[this.edits.verdict(i)][x]++;
      all[x]++;
    }
    const most = Math.max(1, all.reduce((a, b) => Math.max(a, b), 0));
    const size = (n) => (n === 0 ? 0 : Math.max(2, Math.sqrt(n / most) * (room - 3)));
    for (let x = 0; x < columns; x++) {
      const full = size(all[x]);
      if (full === 0) continue;
      const undo = (sums.undo[x] / all[x]) * full;
      const ask = (sums.ask[x] / all[x]) * full;
      g.fillStyle = c.ink;
      g.fillRect(3 * x, top, 2, full - undo - ask);
      g.fillStyle = c.before;
      for (let y = 0; y < undo; y += 3) g.fillRect(3 * x, top + full - undo - ask + y, 2, 2);
      g.fillStyle = c.after;
      for (let y = 0; y < ask; y += 4) g.fillRect(3 * x, top + full - ask + y, 2, 1.5);
    }
  }

  speak() {
    const rate = this.about.sampleRateHz;
    const { from, to } = this.view;
    const first = this.edits.firstFrom(from);
    const inside = this.edits.firstFrom(to) - first;
    const middle = (from + to) / 2;
    this.canvas.setAttribute("aria-valuenow", Math.round(middle / rate));
    this.canvas.setAttribute(
      "aria-valuetext",
      time(from, rate) + " to " + time(to, rate) + ", " + count(inside) + " edits" + this.saidOf(first, inside),
    );
  }

  saidOf(first, inside) {
    let undo = 0;
    let ask = 0;
    for (let i = first; i < first + inside; i++) {
      if (!(this.edits.marks[i] & (OWN | BY_RULE))) continue;
      if (this.edits.verdict(i) === "undo") undo++;
      if (this.edits.verdict(i) === "ask") ask++;
    }
    return undo + ask ? ", " + count(undo) + " of them to undo, " + count(ask) + " to ask" : "";
  }
}
