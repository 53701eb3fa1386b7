// All edits in columns, as the program sends them, and which of them are listed in which order.

export const VERDICTS = ["keep", "undo", "ask"];
export const OWN = 4;
export const BY_RULE = 8;
export const COMMENT = 16;

export class Edits {
  constructor(buffer, about, marks) {
    const n = about.edits;
    this.size = n;
    this.stages = about.stages;
    this.start = new Float64Array(buffer, 0, n);
    this.frames = new Uint32Array(buffer, 8 * n, n);
    this.statistic = new Float32Array(buffer, 12 * n, n);
    this.threshold = new Float32Array(buffer, 16 * n, n);
    this.margin = new Float32Array(buffer, 20 * n, n);
    const doubt = new Uint32Array(buffer, 24 * n, n);
    this.channel = new Uint8Array(buffer, 28 * n, n);
    this.stage = new Uint8Array(buffer, 29 * n, n);
    this.marks = marks;
    this.longest = this.frames.reduce((a, b) => Math.max(a, b), 0);
    this.orders = { doubt, time: Uint32Array.from({ length: n }, (_, i) => i) };
  }

  verdict(i) {
    return VERDICTS[this.marks[i] & 3];
  }

  /** What is said of an edit, in words. */
  said(i) {
    const mark = this.marks[i];
    const sign = ["✓ keep", "↶ undo", "? ask"][mark & 3];
    const by = mark & OWN ? "" : mark & BY_RULE ? " (rule)" : null;
    return (by === null ? "·" : sign + by) + (mark & COMMENT ? " ✎" : "");
  }

  /** First edit that starts at a frame or later. */
  firstFrom(frame) {
    let low = 0;
    let high = this.size;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.start[middle] < frame) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /** Indices of the edits that pass, in order. */
  listed({ sort, stage, channel, verdict }) {
    const wanted = stage === "" ? -1 : this.stages.indexOf(stage);
    const marks = this.marks;
    return this.orders[sort].filter(
      (i) =>
        (wanted < 0 || this.stage[i] === wanted) &&
        (channel === "" || this.channel[i] === Number(channel)) &&
        (verdict === "" || passes(marks[i], verdict)),
    );
  }

  /** How many edits a rule would be about: the program counts the same when it is added. */
  met(rule) {
    const wanted = rule.stage === null ? -1 : this.stages.indexOf(rule.stage);
    let met = 0;
    for (let i = 0; i < this.size; i++) {
      if (
        (wanted < 0 || this.stage[i] === wanted) &&
        (rule.channel === null || this.channel[i] === rule.channel) &&
        (rule.fromFrame === null || this.start[i] + this.frames[i] > rule.fromFrame) &&
        (rule.toFrame === null || this.start[i] < rule.toFrame) &&
        (rule.belowMargin === null || this.margin[i] < rule.belowMargin)
      ) {
        met++;
      }
    }
    return met;
  }
}

function passes(mark, verdict) {
  if (verdict === "none") return (mark & (OWN | BY_RULE)) === 0;
  if (verdict === "comment") return (mark & COMMENT) !== 0;
  return VERDICTS[mark & 3] === verdict && (verdict !== "keep" || (mark & (OWN | BY_RULE)) !== 0);
}
