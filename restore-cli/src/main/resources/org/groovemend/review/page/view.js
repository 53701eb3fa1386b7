// Which stretch of the side the pictures show.

const CLOSEST = 1 / 32; // frames a pixel

export class View extends EventTarget {
  constructor(frames, rate) {
    super();
    this.frames = frames;
    this.rate = rate;
    this.width = 800;
    this.from = 0;
    this.scale = frames / this.width;
  }

  get to() {
    return this.from + this.width * this.scale;
  }

  resize(width) {
    const middle = this.from + (this.width * this.scale) / 2;
    const span = this.width * this.scale;
    this.width = Math.max(50, width);
    this.set(middle - span / 2, span / this.width);
  }

  set(from, scale) {
    const widest = this.frames / this.width;
    this.scale = Math.max(Math.min(CLOSEST, widest), Math.min(widest, scale));
    this.from = Math.max(0, Math.min(this.frames - this.width * this.scale, from));
    this.dispatchEvent(new Event("change"));
  }

  /** Closer with factors below 1; the frame under x stays where it is. */
  zoom(factor, x = this.width / 2) {
    const frame = this.from + x * this.scale;
    const scale = Math.max(CLOSEST, Math.min(this.frames / this.width, this.scale * factor));
    this.set(frame - x * scale, scale);
  }

  move(frames) {
    this.set(this.from + frames, this.scale);
  }

  centre(frame) {
    this.set(frame - (this.width * this.scale) / 2, this.scale);
  }

  /** The edit and a good deal around it. */
  fit(start, frames) {
    const span = Math.max(frames * 6, this.rate * 0.012);
    this.set(start + frames / 2 - span / 2, span / this.width);
  }

  x(frame) {
    return (frame - this.from) / this.scale;
  }
}
