// Waveform tiles: fetched when wanted, the last ones kept.
import { bytes } from "./api.js";

const KEPT = 240;

export class Waves {
  constructor(about, arrived, failed) {
    this.bins = about.waveBins;
    this.channels = about.channels;
    this.arrived = arrived;
    this.failed = failed;
    this.tiles = new Map();
    this.complete = false;
  }

  /** Tiles that were not known to their end are fetched again when they are next wanted. */
  refresh() {
    for (const [key, tile] of this.tiles) {
      if (tile.partly) this.tiles.delete(key);
    }
  }

  /** The tile, or null as long as it is not there. */
  tile(level, number) {
    const key = level + "/" + number;
    const there = this.tiles.get(key);
    if (there) {
      this.tiles.delete(key);
      this.tiles.set(key, there);
      return there.data;
    }
    const entry = { data: null, partly: false };
    this.tiles.set(key, entry);
    if (this.tiles.size > KEPT) this.tiles.delete(this.tiles.keys().next().value);
    const complete = this.complete;
    bytes("wave", { level, tile: number }).then(
      (buffer) => {
        entry.data = new Float32Array(buffer);
        entry.partly = !complete && entry.data.some(Number.isNaN);
        this.arrived();
      },
      (trouble) => {
        this.tiles.delete(key);
        this.failed(trouble);
      },
    );
    return null;
  }

  /**
   * Smallest and largest sample of every pixel: [min, max, min, max ...], NaN where nothing is known.
   * signal: 0 before, 1 after, 2 taken away.
   */
  columns(channel, signal, from, scale, width, frames) {
    const level = Math.max(0, Math.floor(Math.log2(scale)));
    const bin = 2 ** level;
    const out = new Float32Array(2 * width).fill(NaN);
    const row = (channel * 3 + signal) * this.bins * 2;
    const last = Math.floor((frames - 1) / bin);
    for (let x = 0; x < width; x++) {
      const first = Math.floor((from + x * scale) / bin);
      const end = Math.max(first + 1, Math.ceil((from + (x + 1) * scale) / bin));
      let low = Infinity;
      let high = -Infinity;
      for (let b = first; b < end && b <= last; b++) {
        const data = this.tile(level, Math.floor(b / this.bins));
        if (!data) continue;
        const at = row + 2 * (b % this.bins);
        if (data[at] < low) low = data[at];
        if (data[at + 1] > high) high = data[at + 1];
      }
      if (low <= high) {
        out[2 * x] = low;
        out[2 * x + 1] = high;
      }
    }
    return out;
  }

  /** One sample, NaN as long as it is not there. */
  sample(channel, signal, frame) {
    const data = this.tile(0, Math.floor(frame / this.bins));
    return data ? data[(channel * 3 + signal) * this.bins * 2 + 2 * (frame % this.bins)] : NaN;
  }
}
