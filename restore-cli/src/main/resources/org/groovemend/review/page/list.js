// A list of any number of edits of which only the visible rows exist.
import { byId, count, length, number, time, wall } from "./words.js";

const ROW = 32;
const SPARE = 6;
// browsers know no elements much higher than this; longer lists are scrolled in proportion
const HIGHEST = 6_000_000;

export class List {
  constructor(edits, about, choose) {
    this.edits = edits;
    this.about = about;
    this.choose = choose;
    this.box = byId("list");
    this.space = byId("list-space");
    this.rows = [];
    this.order = new Uint32Array(0);
    this.chosen = -1;
    this.position = 0;
    this.box.addEventListener("scroll", () => this.later());
    new ResizeObserver(() => this.later()).observe(this.box);
    this.box.addEventListener("click", (e) => {
      const row = e.target.closest(".row");
      if (row) this.choose(Number(row.dataset.index));
    });
  }

  show(order) {
    this.order = order;
    const height = Math.min(order.length * ROW, HIGHEST);
    this.space.style.height = height + "px";
    const at = order.indexOf(this.chosen);
    if (at >= 0) this.position = at;
    this.draw();
  }

  /** Marks an edit as the chosen one and brings it into sight. */
  mark(index) {
    this.chosen = index;
    const at = this.order[this.position] === index ? this.position : this.order.indexOf(index);
    if (at >= 0) {
      this.position = at;
      const top = this.top();
      const visible = this.box.clientHeight;
      const y = at * ROW;
      if (y < top || y + ROW > top + visible) this.scrollTo(y - visible / 2 + ROW / 2);
    }
    this.draw();
  }

  /** The edit so many rows on; where the chosen one left the list, the one that took its place. */
  neighbour(step) {
    if (this.order.length === 0) return -1;
    const there = this.order[this.position] === this.chosen;
    const at = there ? this.position + step : this.position + Math.min(step, 0);
    return this.order[Math.max(0, Math.min(this.order.length - 1, at))];
  }

  pageRows() {
    return Math.max(1, Math.floor(this.box.clientHeight / ROW) - 1);
  }

  stretch() {
    const all = this.order.length * ROW;
    const room = this.box.clientHeight;
    return all <= HIGHEST ? 1 : (all - room) / (HIGHEST - room);
  }

  top() {
    return this.box.scrollTop * this.stretch();
  }

  scrollTo(y) {
    this.box.scrollTop = Math.max(0, y) / this.stretch();
  }

  later() {
    if (!this.waiting) {
      this.waiting = requestAnimationFrame(() => this.draw());
    }
  }

  draw() {
    this.waiting = 0;
    const top = this.top();
    const first = Math.max(0, Math.floor(top / ROW) - SPARE);
    const shown = Math.ceil(this.box.clientHeight / ROW) + 2 * SPARE;
    while (this.rows.length < shown) this.rows.push(this.makeRow());
    const shift = this.box.scrollTop - top;
    for (let k = 0; k < this.rows.length; k++) {
      // a row keeps its element while it stays in sight
      const at = first + ((k - (first % this.rows.length) + this.rows.length) % this.rows.length);
      this.fill(this.rows[k], at, at * ROW + shift);
    }
    const active = this.order[this.position] === this.chosen && this.chosen >= 0;
    if (active) this.box.setAttribute("aria-activedescendant", "edit-" + this.chosen);
    else this.box.removeAttribute("aria-activedescendant");
  }

  makeRow() {
    const row = document.createElement("div");
    row.className = "row";
    row.setAttribute("role", "option");
    for (let i = 0; i < 6; i++) row.append(document.createElement("span"));
    row.lastChild.className = "what";
    this.space.append(row);
    return row;
  }

  fill(row, at, y) {
    const there = at < this.order.length;
    row.hidden = !there;
    if (!there) {
      row.dataset.state = "";
      row.removeAttribute("id");
      return;
    }
    row.style.transform = "translateY(" + y + "px)";
    const i = this.order[at];
    const e = this.edits;
    const selected = i === this.chosen;
    const state = i + "/" + e.marks[i] + "/" + selected + "/" + at + "/" + this.order.length;
    if (row.dataset.state === state) return;
    row.dataset.state = state;
    row.dataset.index = i;
    row.id = "edit-" + i;
    row.className = "row " + e.verdict(i);
    row.setAttribute("aria-selected", selected);
    row.setAttribute("aria-posinset", at + 1);
    row.setAttribute("aria-setsize", this.order.length);
    const cells = row.children;
    const { sampleRateHz: rate, channels } = this.about;
    cells[0].textContent = count(i + 1);
    cells[1].textContent = time(e.start[i], rate);
    cells[2].textContent = length(e.frames[i], rate);
    cells[3].textContent = e.stages[e.stage[i]] + ", " + wall(e.channel[i], channels);
    cells[4].textContent = number(e.margin[i], 3);
    cells[5].textContent = e.said(i);
  }
}
