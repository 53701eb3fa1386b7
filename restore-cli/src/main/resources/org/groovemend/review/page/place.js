// The waveform of a place: before and after over one another, what was taken away below.
import { byId, count, number, time, wall } from "./words.js";

/** A canvas of as many dots as the screen has, cleared. */
export function canvasOf(canvas) {
  const dpr = Math.min(2, window.devicePixelRatio || 1);
  const width = canvas.clientWidth;
  const height = canvas.clientHeight;
  const w = Math.max(1, Math.round(width * dpr));
  const h = Math.max(1, Math.round(height * dpr));
  if (canvas.width !== w || canvas.height !== h) {
    canvas.width = w;
    canvas.height = h;
  }
  const g = canvas.getContext("2d");
  g.setTransform(dpr, 0, 0, dpr, 0, 0);
  g.clearRect(0, 0, width, height);
  return { g, width, height, dpr };
}

let cached = null;
matchMedia("(prefers-color-scheme:dark)").addEventListener("change", () => {
  cached = null;
  window.dispatchEvent(new Event("recolour"));
});

export function colours() {
  if (!cached) {
    const style = getComputedStyle(document.documentElement);
    cached = {};
    for (const name of ["paper", "ink", "muted", "rule", "before", "after"]) {
      cached[name] = style.getPropertyValue("--" + name).trim();
    }
  }
  return cached;
}

const AXIS = 22;

export class Place {
  constructor(edits, about, waves, view, choose) {
    Object.assign(this, { edits, about, waves, view, choose });
    this.canvas = byId("wave");
    this.chosen = -1;
    view.addEventListener("change", () => this.later());
    window.addEventListener("recolour", () => this.later());
    new ResizeObserver(() => view.resize(this.canvas.clientWidth)).observe(this.canvas);
    this.canvas.addEventListener("wheel", (e) => this.wheel(e), { passive: false });
    this.canvas.addEventListener("pointerdown", (e) => this.hold(e));
    this.canvas.addEventListener("pointermove", (e) => this.drag(e));
    for (const end of ["pointerup", "pointercancel"]) this.canvas.addEventListener(end, (e) => this.release(e));
  }

  wheel(e) {
    if (e.ctrlKey || e.metaKey) {
      e.preventDefault();
      this.view.zoom(Math.exp(e.deltaY * 0.004), e.offsetX);
    } else if (e.deltaX !== 0 || e.shiftKey) {
      e.preventDefault();
      this.view.move((e.deltaX || e.deltaY) * this.view.scale);
    }
  }

  hold(e) {
    this.held = { x: e.clientX, from: this.view.from, moved: false };
    this.canvas.setPointerCapture(e.pointerId);
    this.canvas.classList.add("held");
  }

  drag(e) {
    if (!this.held) return;
    const shift = e.clientX - this.held.x;
    if (Math.abs(shift) > 3) this.held.moved = true;
    if (this.held.moved) this.view.set(this.held.from - shift * this.view.scale, this.view.scale);
  }

  release(e) {
    if (this.held && !this.held.moved && e.type === "pointerup") this.pick(e.offsetX, e.offsetY);
    this.held = null;
    this.canvas.classList.remove("held");
  }

  /** The nearest edit, of the lane under the pointer. */
  pick(x, y) {
    const lane = (this.canvas.clientHeight - AXIS) / this.about.channels;
    const channel = Math.min(this.about.channels - 1, Math.floor(y / lane));
    let best = -1;
    let nearest = 12;
    this.inView((i) => {
      if (this.edits.channel[i] !== channel) return;
      const left = this.view.x(this.edits.start[i]);
      const right = this.view.x(this.edits.start[i] + this.edits.frames[i]);
      const away = x < left ? left - x : x > right ? x - right : 0;
      if (away < nearest) {
        nearest = away;
        best = i;
      }
    });
    if (best >= 0) this.choose(best);
  }

  inView(visit) {
    const { from, to } = this.view;
    for (let i = this.edits.firstFrom(from - this.edits.longest); i < this.edits.size; i++) {
      if (this.edits.start[i] >= to) break;
      if (this.edits.start[i] + this.edits.frames[i] > from) visit(i);
    }
  }

  later() {
    if (!this.waiting) this.waiting = requestAnimationFrame(() => this.draw());
  }

  draw() {
    this.waiting = 0;
    const { g, width, height } = canvasOf(this.canvas);
    const c = colours();
    const lane = (height - AXIS) / this.about.channels;
    for (let ch = 0; ch < this.about.channels; ch++) this.lane(g, ch, ch * lane, lane, width, c);
    this.axis(g, width, height, c);
    clearTimeout(this.speaking);
    this.speaking = setTimeout(() => this.speak(), 400);
  }

  lane(g, channel, top, height, width, c) {
    const split = Math.round(height * 0.7);
    this.bands(g, channel, top, height, c);
    const { from, scale } = this.view;
    const columns = [0, 1, 2].map((signal) =>
      this.waves.columns(channel, signal, from, scale, Math.ceil(width), this.about.frames),
    );
    const peak = Math.max(largest(columns[0]), largest(columns[1]));
    const taken = largest(columns[2]);
    const middle = top + split / 2;
    const size = split / 2 - 8;
    if (scale < 0.7) {
      this.line(g, channel, 0, middle, size / peak, c.before, 3);
      this.line(g, channel, 1, middle, size / peak, c.after, 1.5);
    } else {
      fill(g, columns[0], middle, size / peak, c.before, 1);
      fill(g, columns[1], middle, size / peak, c.after, 0);
    }
    const low = top + split + (height - split) / 2;
    const room = (height - split) / 2 - 4;
    if (scale < 0.7) this.line(g, channel, 2, low, room / taken, c.ink, 1.5);
    else fill(g, columns[2], low, room / taken, c.ink, 0);
    g.fillStyle = c.rule;
    g.fillRect(0, top + split, width, 1);
    g.fillRect(0, top + height - 1, width, 1);
    this.label(g, wall(channel, this.about.channels) + ", to ±" + percent(peak), 6, top + 14, c);
    this.label(g, "taken away, to ±" + percent(taken), 6, top + split + 14, c);
  }

  label(g, text, x, y, c) {
    g.font = "13px Georgia, serif";
    g.fillStyle = c.paper;
    g.globalAlpha = 0.8;
    g.fillRect(x - 3, y - 12, g.measureText(text).width + 6, 16);
    g.globalAlpha = 1;
    g.fillStyle = c.ink;
    g.fillText(text, x, y);
  }

  /** Bands where the edits are; the chosen one between brackets. */
  bands(g, channel, top, height, c) {
    this.inView((i) => {
      if (this.edits.channel[i] !== channel) return;
      const left = this.view.x(this.edits.start[i]);
      const wide = Math.max(1, this.edits.frames[i] / this.view.scale);
      g.fillStyle = c.rule;
      g.globalAlpha = 0.7;
      g.fillRect(left, top, wide, height);
      g.globalAlpha = 1;
      if (i === this.chosen) {
        g.strokeStyle = c.ink;
        g.lineWidth = 2;
        const [l, r, t, b] = [left - 2, left + wide + 2, top + 2, top + height - 3];
        g.beginPath();
        g.moveTo(l + 7, t);
        g.lineTo(l, t);
        g.lineTo(l, b);
        g.lineTo(l + 7, b);
        g.moveTo(r - 7, t);
        g.lineTo(r, t);
        g.lineTo(r, b);
        g.lineTo(r - 7, b);
        g.stroke();
      }
    });
  }

  /** Samples joined by straight lines; dots where there is room. */
  line(g, channel, signal, middle, size, colour, wide) {
    const { from, to, scale } = this.view;
    g.strokeStyle = g.fillStyle = colour;
    g.lineWidth = wide;
    g.beginPath();
    const end = Math.min(this.about.frames - 1, Math.ceil(to));
    for (let f = Math.max(0, Math.floor(from)); f <= end; f++) {
      const value = this.waves.sample(channel, signal, f);
      const y = middle - value * size;
      if (Number.isFinite(y)) {
        g.lineTo(this.view.x(f + 0.5), y);
        if (scale < 0.12) g.rect(this.view.x(f + 0.5) - 1.5, y - 1.5, 3, 3), g.moveTo(this.view.x(f + 0.5), y);
      }
    }
    g.stroke();
  }

  axis(g, width, height, c) {
    const { from, to, rate } = this.view;
    const wanted = ((to - from) / rate) * (110 / width);
    const steps = [1, 2, 5].flatMap((m) => [-5, -4, -3, -2, -1, 0].map((e) => m * 10 ** e)).concat([15, 30, 60, 120, 300, 600, 1200, 3600]);
    const step = steps.sort((a, b) => a - b).find((s) => s >= wanted) || 3600;
    const digits = step >= 1 ? 0 : Math.ceil(-Math.log10(step));
    g.fillStyle = c.ink;
    g.font = "12px Georgia, serif";
    for (let t = Math.ceil(from / rate / step) * step; t * rate < to; t += step) {
      const x = this.view.x(t * rate);
      g.fillRect(x, height - AXIS, 1, 5);
      if (x > 2 && x < width - 60) g.fillText(time(t * rate, rate, digits), x + 3, height - 6);
    }
  }

  speak() {
    const { from, to, rate } = this.view;
    let inside = 0;
    this.inView(() => inside++);
    let text = "Waveform before, after and taken away, " + time(from, rate) + " to " + time(to, rate) + ", " + count(inside) + " edits in sight";
    if (this.chosen >= 0) {
      const x = this.view.x(this.edits.start[this.chosen]);
      text += ". Edit " + count(this.chosen + 1) + (x >= 0 && x < this.view.width ? " is in sight" : " is out of sight");
    }
    this.canvas.setAttribute("aria-label", text);
  }
}

function largest(columns) {
  let peak = 0;
  for (const v of columns) if (Math.abs(v) > peak) peak = Math.abs(v);
  return peak || 1e-9;
}

const percent = (peak) => (peak <= 1e-9 ? "0" : number(peak * 100, peak < 0.001 ? 4 : peak < 0.1 ? 2 : 1) + " %");

/** From least to greatest of each column, and this many pixels more above and below. */
function fill(g, columns, middle, size, colour, more) {
  g.fillStyle = colour;
  for (let x = 0; 2 * x < columns.length; x++) {
    if (Number.isNaN(columns[2 * x])) continue;
    const top = middle - columns[2 * x + 1] * size - more;
    g.fillRect(x, top, 1, Math.max(1, (columns[2 * x + 1] - columns[2 * x]) * size) + 2 * more);
  }
}
