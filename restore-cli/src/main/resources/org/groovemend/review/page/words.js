// Numbers as people read them.

export const byId = (id) => document.getElementById(id);

export const tell = (id, text) => {
  const node = byId(id);
  if (node.textContent !== text) node.textContent = text;
};

/** Frames as m:ss.mmm. */
export function time(frame, rate, digits = 3) {
  const unit = 10 ** digits;
  const total = Math.round((frame / rate) * unit);
  const minutes = Math.floor(total / unit / 60);
  const rest = total - minutes * 60 * unit;
  const text = (rest / unit).toFixed(digits);
  return minutes + ":" + (rest / unit < 10 ? "0" : "") + text;
}

/** m:ss.sss or plain seconds as a frame; null for nothing, NaN for nonsense. */
export function frameOf(text, rate) {
  const said = text.trim().replace(",", ".");
  if (said === "") return null;
  const parts = /^(?:(\d+):)?(\d+(?:\.\d+)?)$/.exec(said);
  return parts ? Math.round((Number(parts[1] || 0) * 60 + Number(parts[2])) * rate) : NaN;
}

export function length(frames, rate) {
  const ms = (frames / rate) * 1000;
  return (ms < 10 ? ms.toFixed(2) : ms < 100 ? ms.toFixed(1) : ms.toFixed(0)) + " ms";
}

export const number = (x, digits = 2) =>
  Number.isFinite(x) ? x.toFixed(digits).replace("-", "−") : "none";

export const db = (x) => number(x, 1) + " dB";

/** Thousands apart; Intl would take longer to load than the whole page. */
export const count = (n) => String(n).replace(/\B(?=(\d{3})+$)/g, ",");

export const many = (n, one) => count(n) + " " + one + (n === 1 ? "" : "s");

export const wall = (channel, channels) =>
  channels === 1 ? "mono" : channel === 0 ? "left" : "right";

/** For those who do not see the page. */
export function say(text) {
  byId("say").textContent = text;
}
