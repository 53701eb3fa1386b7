// Spectrograms before and after, from tiles that the program draws.
import { blob } from "./api.js";
import { byId, time } from "./words.js";
import { canvasOf, colours } from "./place.js";

const KEPT = 120;
const SHORTEST = 0.75; // seconds: a shorter stretch would hold little but one window of the transform
const AT_ONCE = 4;

export class Spectra {
  constructor(edits, about, view, failed) {
    Object.assign(this, { edits, about, view, failed });
    this.canvas = byId("spectra");
    this.columns = about.spectrogramColumns;
    this.tiles = new Map();
    this.queue = [];
    this.running = 0;
    view.addEventListener("change", () => this.later());
    window.addEventListener("recolour", () => this.later());
    new ResizeObserver(() => this.later()).observe(this.canvas);
  }

  later() {
    if (!this.waiting) this.waiting = requestAnimationFrame(() => this.draw());
  }

  tile(side, level, number) {
    const key = side + "/" + level + "/" + number;
    const there = this.tiles.get(key);
    if (there) {
      this.tiles.delete(key);
      this.tiles.set(key, there);
      return there.picture;
    }
    this.queue.push({ key, side, level, number });
    return null;
  }

  /** What is in sight now is fetched; what no longer is, is not. */
  next() {
    while (this.running < AT_ONCE && this.queue.length > 0) {
      const { key, side, level, number } = this.queue.shift();
      if (this.tiles.has(key)) continue;
      const entry = { picture: null };
      this.tiles.set(key, entry);
      if (this.tiles.size > KEPT) {
        const [oldest, gone] = this.tiles.entries().next().value;
        this.tiles.delete(oldest);
        if (gone.picture) gone.picture.close();
      }
      this.running++;
      blob("spectrogram", { side, level, tile: number })
        .then(createImageBitmap)
        .then(
          (picture) => {
            entry.picture = picture;
            this.later();
          },
          (trouble) => {
            this.tiles.delete(key);
            this.failed(trouble);
          },
        )
        .finally(() => {
          this.running--;
          this.next();
        });
    }
  }

  draw() {
    this.waiting = 0;
    this.queue = [];
    const { g, width, height } = canvasOf(this.canvas);
    const c = colours();
    const { from, to, scale } = this.range(width);
    const x = (frame) => (frame - from) / scale;
    const level = Math.max(0, Math.round(Math.log2(scale)));
    const each = this.columns * 2 ** level;
    const half = Math.floor((height - 4) / 2);
    ["before", "after"].forEach((side, k) => {
      const top = k * (half + 4);
      const last = Math.floor((this.about.frames - 1) / each);
      for (let n = Math.floor(from / each); n <= last && n * each < to; n++) {
        const picture = this.tile(side, level, n);
        const w = each / scale;
        if (picture) {
          g.drawImage(picture, x(n * each), top, w, half);
        } else {
          g.fillStyle = c.rule;
          g.fillRect(x(n * each), top, w, half);
        }
      }
      this.legend(g, side, top, half, width, c);
    });
    g.fillStyle = c.ink;
    if (this.chosen >= 0) {
      const at = x(this.edits.start[this.chosen] + this.edits.frames[this.chosen] / 2);
      g.fillRect(at - 1, half, 3, 4);
      g.fillRect(at - 5, half + 1, 11, 2);
    }
    if (scale > this.view.scale * 1.01) this.frame(g, x(this.view.from), x(this.view.to), height, c);
    const rate = this.about.sampleRateHz;
    this.canvas.setAttribute("aria-label", "Spectrogram before above, after below, " + time(from, rate) + " to " + time(to, rate));
    this.next();
  }

  /** The stretch that is shown: that of the waveform, but never so short that nothing could be told. */
  range(width) {
    const shortest = Math.min(this.about.frames, SHORTEST * this.about.sampleRateHz);
    const span = Math.max(this.view.to - this.view.from, shortest);
    const middle = (this.view.from + this.view.to) / 2;
    const from = Math.max(0, Math.min(this.about.frames - span, middle - span / 2));
    return { from, to: from + span, scale: span / width };
  }

  /** What the waveform shows of it. */
  frame(g, left, right, height, c) {
    for (const [colour, wide] of [[c.paper, 4], [c.ink, 1.5]]) {
      g.strokeStyle = colour;
      g.lineWidth = wide;
      g.setLineDash(colour === c.ink ? [6, 4] : []);
      g.strokeRect(left - 1, 1, right - left + 2, height - 2);
    }
    g.setLineDash([]);
  }

  legend(g, side, top, half, width, c) {
    g.font = "13px Georgia, serif";
    const text = (words, x, y) => {
      const w = g.measureText(words).width;
      g.fillStyle = c.paper;
      g.globalAlpha = 0.85;
      g.fillRect(x - 3, y - 12, w + 6, 16);
      g.globalAlpha = 1;
      g.fillStyle = c.ink;
      g.fillText(words, x, y);
    };
    text(side, 6, top + 14);
    const nyquist = this.about.sampleRateHz / 2;
    for (const hz of [100, 1000, 10000]) {
      if (hz >= nyquist * 0.9) continue;
      const y = top + half * (1 - Math.log(hz / 30) / Math.log(nyquist / 30));
      g.fillStyle = c.ink;
      g.fillRect(width - 8, y, 8, 1);
      text(hz < 1000 ? hz + " Hz" : hz / 1000 + " kHz", width - 58, y + 4);
    }
  }
}
