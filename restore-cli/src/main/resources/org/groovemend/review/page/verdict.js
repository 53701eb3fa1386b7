// The decision about the chosen edit.
import { json } from "./api.js";
import { byId, count, length, number, say, tell, time, wall } from "./words.js";
import { BY_RULE, COMMENT, OWN, VERDICTS } from "./edits.js";

// after the last key
const PAUSE_MS = 800;

const WORDS = { keep: "kept", undo: "to be undone", ask: "marked for a person" };

export class Verdict {
  constructor(edits, about, change) {
    Object.assign(this, { edits, about, change });
    this.chosen = -1;
    this.last = Promise.resolve();
    /** Words by edit that were typed before it was known what had been said of it. */
    this.early = new Map();
    for (const button of document.querySelectorAll("[data-verdict]")) {
      button.addEventListener("click", () => this.decide(button.dataset.verdict));
    }
    byId("forget").addEventListener("click", () => this.forget());
    byId("back").addEventListener("click", () => this.back());
    byId("save-comment").addEventListener("click", () => this.comment());
    byId("comment").addEventListener("input", () => this.soonSaved());
    // the tab is closed, left or loaded again: there is no time for one's turn
    const leave = () => this.comment(false, true);
    window.addEventListener("pagehide", leave);
    document.addEventListener("visibilitychange", () => document.hidden && leave());
    byId("comment").addEventListener("keydown", (e) => {
      if (e.key === "Enter" && (e.ctrlKey || e.metaKey)) this.comment();
      if (e.key === "Escape") byId("list").focus();
    });
  }

  soonSaved() {
    clearTimeout(this.soon);
    this.soon = setTimeout(() => this.comment(false), PAUSE_MS);
  }

  /** One request after the other: a comment that was typed before must not come after. */
  inTurn(work) {
    this.last = this.last.then(work, work);
    return this.last;
  }

  async show(index) {
    const kept = this.keepTyped();
    // at once: a key that is pressed while that is under way is about the edit that is marked
    this.chosen = index;
    byId("comment").value = "";
    this.draw();
    await kept;
    const edit = index + 1;
    const [more, said] = await Promise.all([json("edit", { number: edit }), json("comment", { edit })]);
    const here = this.chosen === index;
    // whoever types faster than the answer comes goes on where the comment ends
    const typed = [said.comment, this.early.get(index), here && byId("comment").value].filter(Boolean).join(" ");
    this.early.delete(index);
    if (!here) {
      if (typed !== said.comment) await this.inTurn(() => this.change("decide", { edit, comment: typed }));
      return;
    }
    this.saved = said.comment;
    byId("comment").value = typed;
    if (typed !== said.comment) this.soonSaved();
    const doubt = more.uncertaintyDbfs === null ? "" : "; expected error " + number(more.uncertaintyDbfs, 1) + " dBFS";
    tell(
      "details",
      this.place(index) +
        ". Found with " + number(more.statistic ?? NaN, 3) + " where " + number(more.threshold ?? NaN, 3) +
        " was to be exceeded; filled by " + more.method +
        (more.modelOrder ? " of order " + more.modelOrder : "") + doubt + ".",
    );
  }

  place(i) {
    const e = this.edits;
    const rate = this.about.sampleRateHz;
    return (
      e.stages[e.stage[i]] + ", " + wall(e.channel[i], this.about.channels) + ", " + time(e.start[i], rate) + ", " +
      length(e.frames[i], rate) + " (" + count(e.frames[i]) + " samples)"
    );
  }

  /** Buttons as the marks say. */
  draw() {
    const i = this.chosen;
    if (i < 0) return;
    const mark = this.edits.marks[i];
    const by = mark & OWN ? ", " + WORDS[VERDICTS[mark & 3]] : mark & BY_RULE ? ", " + WORDS[VERDICTS[mark & 3]] + " by a rule" : ", nothing decided: it stays";
    tell("verdict-head", "Edit " + count(i + 1) + by);
    for (const button of document.querySelectorAll("[data-verdict]")) {
      const on = Boolean(mark & OWN) && button.dataset.verdict === VERDICTS[mark & 3];
      button.setAttribute("aria-pressed", on);
      button.disabled = this.closed;
    }
    byId("forget").disabled = this.closed || !(mark & (OWN | COMMENT));
    byId("comment").disabled = byId("save-comment").disabled = this.closed;
    byId("back").disabled = this.closed || !this.lastStep;
    byId("back").title = this.lastStep ? "takes back: " + this.lastStep : "";
  }

  state(state) {
    this.closed = state.signOff !== null;
    this.lastStep = state.lastStep;
    this.draw();
  }

  async decide(verdict) {
    if (this.chosen < 0 || this.closed) return;
    const index = this.chosen;
    const edit = index + 1;
    const typed = byId("comment").value;
    const commented = this.saved !== undefined && typed !== this.saved;
    const body = { edit, verdict, ...(commented ? { comment: typed } : {}) };
    clearTimeout(this.soon);
    const sent = this.inTurn(() => this.change("decide", body));
    if (this.saved !== undefined) this.saved = typed;
    // at once: a second key that comes before the answer is about the next edit
    if (byId("go-on").checked) this.next();
    if (await sent) {
      say("Edit " + count(edit) + " is " + WORDS[verdict] + ".");
      return;
    }
    // not on the disk: back to it, with the words that were typed
    if (commented && this.chosen !== index) this.early.set(index, typed);
    else if (commented) this.saved = undefined;
    if (this.chosen !== index) this.goTo(index);
  }

  async forget() {
    if (this.chosen < 0 || this.closed || !(this.edits.marks[this.chosen] & (OWN | COMMENT))) return;
    const edit = this.chosen + 1;
    clearTimeout(this.soon);
    if (await this.inTurn(() => this.change("forget", { edit }))) {
      if (this.chosen + 1 === edit) this.saved = byId("comment").value = "";
      say("Nothing is said about edit " + count(edit) + " any more.");
    }
  }

  /**
   * Saves what was typed, if it is new: no decision is made by looking.
   * @param aloud whether a person asked for it and is told
   * @param leaving whether the page goes away: then with a request that outlives it
   */
  async comment(aloud = true, leaving = false) {
    clearTimeout(this.soon);
    if (this.chosen < 0 || this.closed || this.saved === undefined) return;
    const edit = this.chosen + 1;
    const comment = byId("comment").value;
    const before = this.saved;
    let there = true;
    if (comment !== before) {
      this.saved = comment;
      const send = () => this.change("decide", { edit, comment }, leaving);
      there = await (leaving ? send() : this.inTurn(send));
      // not on the disk: the next pause tries again
      if (!there && this.chosen + 1 === edit && this.saved === comment) this.saved = before;
    } else {
      await this.last;
    }
    if (there && aloud) say("The comment is saved.");
  }

  /** What was typed and not saved is not lost when another edit is chosen. */
  keepTyped() {
    const typed = byId("comment").value;
    if (this.saved === undefined && this.chosen >= 0 && typed) this.early.set(this.chosen, typed);
    const kept = this.comment(false);
    this.saved = undefined;
    return kept;
  }

  async back() {
    if (this.closed) return;
    await this.comment(false);
    const what = this.lastStep;
    const told = await this.inTurn(() => this.change("back", {}));
    if (told) {
      say("Taken back: " + what + ".");
      if (told.edit) this.goTo(told.edit - 1);
    }
  }
}
